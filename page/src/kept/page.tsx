import type { ComponentChildren } from "preact";
import { paths, type Form, type FormField, type Kind, type KeptDocument } from "../api/client";
import { AnswerView, begunForm, Button, ButtonLink, Heading, valuesOf, type Values } from "../parts";
import { asked, go } from "../shell/navigation";
import { pathOf } from "../shell/routes";
import { useAnswer } from "../state/use_answer";
import { t } from "../words";
import type { EditAsked } from "./edit";
import { EditForm } from "./edit_form";
import { Head, labelOf } from "./head";
import { isTable } from "./shown";
import { LockButton } from "./lock";
import { changeOf, listOf, newOf } from "./place";
import { Values as ValuesView } from "./values";
import { Versions } from "./versions";

export interface DocumentPageProps {
  kind: Kind;
  name: string;
  /** The one action this document is looked at for; else it is to change it. */
  primary?: (document: KeptDocument, again: () => void) => ComponentChildren;
  /** What stands between heading and values. */
  above?: (document: KeptDocument, form: Form) => ComponentChildren;
  /** What stands between values and versions. */
  below?: (document: KeptDocument) => ComponentChildren;
  leaveOut?: ReadonlySet<string>;
}

/** Both answers a page of a document needs. */
export function WithDocument({ kind, name, version, children }: { kind: Kind; name: string; version?: number | undefined; children: (document: KeptDocument, form: Form, again: () => void) => ComponentChildren }) {
  const document = useAnswer<KeptDocument>(paths.document(kind, name, version));
  const form = useAnswer<Form>(paths.form(kind));
  if (document.answer === null) {
    return (
      <>
        <Heading>{name}</Heading>
        <AnswerView of={document}>{() => null}</AnswerView>
      </>
    );
  }
  // That an answer is an earlier one is said once.
  return <AnswerView of={document}>{(kept) => (form.answer ? children(kept, form.answer, document.again) : <AnswerView of={form}>{() => null}</AnswerView>)}</AnswerView>;
}

/** One kept document: what it says, its versions, and what may be done with it. */
export function DocumentPage({ kind, name, primary, above, below, leaveOut }: DocumentPageProps) {
  const version = Number(asked.value.get("version")) || undefined;
  return (
    <WithDocument kind={kind} name={name} version={version}>
      {(document, form, again) => (
        <>
          <Head document={document} />
          <div class="actions actions-row screen-only">
            {primary?.(document, again)}
            {document.locked_because === null ? <ButtonLink kind={primary ? "plain" : "primary"} to={changeOf(kind, name)}>{t("kept.change")}</ButtonLink> : null}
            <ButtonLink to={newOf(kind, { from: name })}>{t("kept.new_from_this")}</ButtonLink>
            <LockButton document={document} onDone={again} />
            <Button onPress={() => print()}>{t("parts.print")}</Button>
          </div>
          {above?.(document, form)}
          <section class="section" aria-label={t("kept.values")}>
            <ValuesView fields={form.fields} values={document.values} {...(leaveOut ? { leaveOut } : {})} />
          </section>
          {below?.(document)}
          <Versions key={document.newest} kind={kind} name={name} shown={document.version} />
        </>
      )}
    </WithDocument>
  );
}

/** The next version of a document. */
export function ChangePage({ kind, name }: { kind: Kind; name: string }) {
  const back = () => go(pathOf(kind, name));
  return (
    <WithDocument kind={kind} name={name}>
      {(document, form) => (
        <>
          <Heading>{t("kept.change_title", { label: labelOf(document) })}</Heading>
          <p class="under-heading">{t("kept.change_says", { version: document.version, next: document.version + 1 })}</p>
          <EditForm key={`${name}@${document.version}`} kind={kind} document={document} start={{}} fields={form.fields} onKept={back} onCancel={back} />
        </>
      )}
    </WithDocument>
  );
}

export interface NewPageProps {
  kind: Kind;
  title: string;
  lead?: ComponentChildren;
  /** What it begins with, besides what the address says. */
  start?: Values;
  onKept?: (name: string) => void;
  /** The fields that are asked for, in this order; else all of the form. */
  only?: readonly string[];
  send?: EditAsked["send"];
  nameFrom?: EditAsked["nameFrom"];
}

/** A new document: from nothing, from one that is kept (`?from=`), or with values of the address begun. */
export function NewPage({ kind, title, lead, start = {}, onKept, only, send, nameFrom }: NewPageProps) {
  const form = useAnswer<Form>(paths.form(kind));
  const from = asked.value.get("from");
  const model = useAnswer<KeptDocument>(from === null ? null : paths.document(kind, from));
  const kept = onKept ?? ((name: string) => go(pathOf(kind, name)));
  const fill = (whole: Form, begin: Values) => {
    const fields = only ? only.flatMap((key) => whole.fields.filter((field) => field.key === key)) : whole.fields;
    const first = { ...begunForm(fields), ...begin, ...start, ...ofAddress(fields) };
    return <EditForm key={from ?? ""} kind={kind} document={null} start={first} fields={fields} whole={!fields.some(isTable)} send={send} nameFrom={nameFrom} onKept={kept} onCancel={() => go(listOf(kind))} />;
  };
  return (
    <>
      <Heading>{title}</Heading>
      {lead}
      <AnswerView of={form}>
        {(fields) => (from === null ? fill(fields, {}) : <AnswerView of={model}>{(document) => fill(fields, asModel(document))}</AnswerView>)}
      </AnswerView>
    </>
  );
}

/** Names are one's own; all else is taken over. */
function asModel(document: KeptDocument): Values {
  const { name: _, label, ...rest } = valuesOf(document.values);
  return label ? { ...rest, label: t("kept.like", { label }) } : rest;
}

function ofAddress(fields: readonly FormField[]): Values {
  return Object.fromEntries(fields.flatMap(({ key }) => (asked.value.get(key) ? [[key, asked.value.get(key) ?? ""]] : [])));
}
