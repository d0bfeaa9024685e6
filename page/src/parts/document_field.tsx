import { paths, type DocumentList, type FormField, type Kind } from "../api/client";
import { useAnswer } from "../state/use_answer";
import { asPeopleWrite, asTold, t } from "../words";
import { Choice, type Option } from "./choice";
import { Field } from "./field";
import { ItemsField } from "./items_field";
import { MomentField } from "./moment_field";

export interface DocumentFieldProps {
  field: FormField;
  id: string;
  value: string;
  mistake: string | undefined;
  onChange: (text: string) => void;
}

/** What a value means and how it may be written, in the words of the form. */
function helpOf(field: FormField): string {
  const plain = field.type === "text" || field.type === "number" || field.type === "whole number";
  // Names are offered, days and moments have fields of their own: nobody must know how they are spelled.
  if (field.refers_to || field.kind === "a date" || field.kind === "a time in UTC") return field.meaning;
  const typed = !plain || field.choices?.length || !field.example ? "" : t("parts.form.example", { example: field.example });
  const usual = field.default ? t("parts.form.usual", { value: usually(field.default, field) }) : "";
  // A number and its unit stay on one line.
  const allowed = [typed, field.range ?? "", usual].filter(Boolean).map((said) => asTold(asPeopleWrite(said)));
  return [meaningOf(field), ...allowed].filter(Boolean).join(" · ").replace(/(\d) (?=[°%a-zA-Zµ/])/g, "$1\u00a0");
}

/** What a yes or no stands for, told by the answers that are offered here and not by what a file holds. */
function meaningOf({ type, meaning }: FormField): string {
  if (type !== "truth") return meaning;
  return meaning.replace(/^(false|falsch|nein): /, `${t("parts.no")}: `).replace(/^(true|wahr|ja): /, `${t("parts.yes")}: `);
}

function usually(value: string, { type, choices }: FormField): string {
  if (type === "truth") return value === "true" ? t("parts.yes") : t("parts.no");
  return choices?.find((choice) => choice.value === value)?.label ?? value;
}

/** The field that suits a value: a choice, a day, a moment, names that are kept, several values, or text with its unit. */
export function DocumentField({ field, onChange, ...given }: DocumentFieldProps) {
  const said = {
    ...given,
    label: field.required ? field.label : `${field.label} (${t("parts.optional")})`,
    help: helpOf(field),
    required: field.required ?? false,
  };
  if (field.choices?.length) return <Choice {...said} options={field.choices} onChoose={onChange} />;
  if (field.type === "truth") return <Choice {...said} options={truths()} onChoose={onChange} />;
  if (field.type === "list of texts" || field.type === "list of numbers") return <Several {...said} kind={(field.refers_to ?? null) as Kind | null} onChange={onChange} />;
  if (field.kind === "a date") return <Field {...said} kind="date" onInput={onChange} />;
  if (field.kind === "a time in UTC") return <MomentField {...said} onChange={onChange} />;
  if (field.refers_to) return <NameField {...said} kind={field.refers_to as Kind} onChange={onChange} />;
  const lines = field.key === "note" ? { lines: 2 } : {};
  return <Field {...said} {...lines} onInput={onChange} />;
}

function truths(): Option[] {
  return [
    { value: "true", label: t("parts.yes") },
    { value: "false", label: t("parts.no") },
  ];
}

interface Said {
  id: string;
  value: string;
  mistake: string | undefined;
  label: string;
  help: string;
  required: boolean;
  onChange: (text: string) => void;
}

function useNames(kind: Kind | null): readonly string[] {
  const { answer } = useAnswer<DocumentList>(kind === null ? null : paths.documents(kind));
  return answer?.rows.map((row) => row.name) ?? [];
}

/** The name of something kept: what the lab keeps of that kind is offered. */
function NameField({ kind, onChange, ...said }: Said & { kind: Kind }) {
  return <Field {...said} offers={useNames(kind)} onInput={onChange} />;
}

function Several({ kind, ...said }: Said & { kind: Kind | null }) {
  return <ItemsField {...said} offers={useNames(kind)} />;
}
