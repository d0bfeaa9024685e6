import { useState } from "preact/hooks";
import { atItsField } from "../api/client";
import type { FormField, Mistake } from "../api/types";
import { t } from "../words";
import { Button } from "./button";
import { DocumentField } from "./document_field";
import { begun, countOf, placeOf, stands, without, withoutPlace, type Values } from "./form_values";

export interface DocumentFormProps {
  fields: readonly FormField[];
  values: Values;
  onChange: (next: Values) => void;
  mistakes?: readonly Mistake[];
  /** Keys that are not shown: what the screen asks for in its own way. */
  without?: readonly string[];
  /** All fields in sight from the start: few, and chosen by the screen. */
  whole?: boolean;
}

interface Level extends DocumentFormProps {
  /** What stands before the keys of this level: "heating[2]." */
  before: string;
}

/** A form made from the field table of a kind: what is needed or said already first, the rest behind one key. */
export function DocumentForm(props: DocumentFormProps) {
  return <Fields {...props} before="" />;
}

/** Where the field of a key is found on the page. */
export function idOfKey(key: string): string {
  return `value-${key.replace(/[^a-z0-9_]+/gi, "-")}`;
}

function isFirst(field: FormField, { values, before, mistakes = [] }: Level): boolean {
  const key = before + field.key;
  return field.required === true || (field.at_least ?? 0) > 0 || field.key === "label" || stands(values, key) || mistakes.some((mistake) => stands({ [mistake.key]: "" }, key));
}

function Fields(level: Level) {
  const [all, setAll] = useState(level.whole === true && level.before === "");
  const shown = level.fields.filter((field) => !level.without?.includes(level.before + field.key));
  const first = shown.filter((field) => isFirst(field, level));
  const rest = shown.filter((field) => !first.includes(field));
  return (
    <div class="document-fields">
      {(all ? shown : first).map((field) => (
        <AnyField key={field.key} field={field} level={level} />
      ))}
      {rest.length > 0 && !all ? (
        <Button onPress={() => setAll(true)}>{t("parts.form.more", { what: rest.map((field) => field.label).slice(0, 3).join(", ") + (rest.length > 3 ? " …" : "") })}</Button>
      ) : null}
    </div>
  );
}

function AnyField({ field, level }: { field: FormField; level: Level }) {
  const key = level.before + field.key;
  if (field.type === "list") return <ListField field={field} level={level} />;
  if (field.type === "group") return <GroupField field={field} level={level} />;
  return (
    <DocumentField
      field={field}
      id={idOfKey(key)}
      value={level.values[key] ?? ""}
      mistake={sentenceAt(level, key)}
      onChange={(text) => level.onChange({ ...level.values, [key]: text })}
    />
  );
}

function sentenceAt(level: Level, key: string): string | undefined {
  const found = level.mistakes?.find((mistake) => mistake.key === key);
  return found && atItsField(found);
}

function MistakeAt({ level, at }: { level: Level; at: string }) {
  const sentence = sentenceAt(level, at);
  if (sentence === undefined) return null;
  return (
    <p class="field-mistake">
      <strong>{t("parts.mistake")}</strong> {sentence}
    </p>
  );
}

/** Values that go together; those that may be left out as a whole are begun and taken out by a key. */
function GroupField({ field, level }: { field: FormField; level: Level }) {
  const key = level.before + field.key;
  const fields = field.fields ?? [];
  const there = field.required === true || stands(level.values, key);
  return (
    <fieldset class="group" id={idOfKey(key)} tabIndex={-1}>
      <legend>{field.label}</legend>
      <p class="field-help">{field.meaning}</p>
      <MistakeAt level={level} at={key} />
      {there ? <Fields {...level} fields={fields} before={`${key}.`} /> : <Button onPress={() => level.onChange(begun(level.values, key, fields))}>{t("parts.form.add", { what: field.label })}</Button>}
      {there && !field.required ? <TakeOut what={field.label} onPress={() => level.onChange(without(level.values, key))} /> : null}
    </fieldset>
  );
}

function TakeOut({ what, onPress }: { what: string; onPress: () => void }) {
  return (
    <Button kind="quiet" label={`${t("parts.form.take_out")}: ${what}`} onPress={onPress}>
      {t("parts.form.take_out")}
    </Button>
  );
}

function ListField({ field, level }: { field: FormField; level: Level }) {
  const key = level.before + field.key;
  const fields = field.fields ?? [];
  const count = countOf(level.values, key);
  const one = field.one ?? field.label;
  return (
    <fieldset class="group" id={idOfKey(key)} tabIndex={-1}>
      <legend>{field.label}</legend>
      <p class="field-help">{field.meaning}</p>
      <MistakeAt level={level} at={key} />
      {Array.from({ length: count }, (_, index) => index + 1).map((place) => (
        <div key={place} class="group-one" role="group" aria-label={`${one} ${place}`}>
          <div class="group-one-head">
            <strong>
              {one} {place}
            </strong>
            {count > (field.at_least ?? 0) ? <TakeOut what={`${one} ${place}`} onPress={() => level.onChange(withoutPlace(level.values, key, place))} /> : null}
          </div>
          <Fields {...level} fields={fields} before={`${placeOf(key, place)}.`} />
        </div>
      ))}
      {count < (field.at_most ?? Infinity) ? <Button onPress={() => level.onChange(begun(level.values, placeOf(key, count + 1), fields))}>{t("parts.form.add", { what: one })}</Button> : null}
    </fieldset>
  );
}
