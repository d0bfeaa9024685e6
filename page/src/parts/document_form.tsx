import { useState } from "preact/hooks";
import { paths, type DocumentList, type FormField, type Kind, type Mistake } from "../api/client";
import { useAnswer } from "../state/use_answer";
import { t } from "../words";
import { Button } from "./button";
import { Choice, Tick } from "./choice";
import { Field } from "./field";
import { countOf, withoutPlace, type Values } from "./form_values";

export interface DocumentFormProps {
  fields: readonly FormField[];
  values: Values;
  onChange: (next: Values) => void;
  mistakes?: readonly Mistake[];
  /** Keys that are not shown: what the screen asks for in its own way. */
  without?: readonly string[];
}

interface Level extends DocumentFormProps {
  /** What stands before the keys of this level: "heating[2]." */
  before: string;
}

/** A form made from the field table of a kind: what is required first, the rest behind one key. */
export function DocumentForm(props: DocumentFormProps) {
  return <Fields {...props} before="" />;
}

function hasValue(field: FormField, { values, before, mistakes = [] }: Level): boolean {
  const key = before + field.key;
  const inside = (one: string) => one === key || one.startsWith(`${key}.`) || one.startsWith(`${key}[`);
  return Object.keys(values).some(inside) || mistakes.some((mistake) => inside(mistake.key));
}

function Fields(level: Level) {
  const [all, setAll] = useState(false);
  const shown = level.fields.filter((field) => !level.without?.includes(level.before + field.key));
  const first = shown.filter((field) => field.required || hasValue(field, level));
  const rest = shown.filter((field) => !first.includes(field));
  return (
    <div class="document-fields">
      {first.map((field) => (
        <AnyField key={field.key} field={field} level={level} />
      ))}
      {rest.length && !all ? (
        <Button onPress={() => setAll(true)}>{t("parts.form.more", { what: rest.map((field) => field.label).slice(0, 3).join(", ") + (rest.length > 3 ? " …" : "") })}</Button>
      ) : null}
      {all ? rest.map((field) => <AnyField key={field.key} field={field} level={level} />) : null}
    </div>
  );
}

function AnyField({ field, level }: { field: FormField; level: Level }) {
  const key = level.before + field.key;
  if (field.type === "list") return <ListField field={field} level={level} />;
  if (field.type === "group") {
    return (
      <fieldset class="group">
        <legend>{field.label}</legend>
        <p class="field-help">{field.meaning}</p>
        <Fields {...level} fields={field.fields ?? []} before={`${key}.`} />
      </fieldset>
    );
  }
  return <ValueField field={field} level={level} keyed={key} />;
}

function helpOf(field: FormField): string {
  const typed = field.choices?.length ? "" : field.example ? t("parts.form.example", { example: field.example }) : "";
  const usual = field.default ? t("parts.form.usual", { value: field.default }) : "";
  return [field.meaning, typed, field.range ?? "", usual].filter(Boolean).join(" · ");
}

function ValueField({ field, level, keyed }: { field: FormField; level: Level; keyed: string }) {
  const value = level.values[keyed] ?? "";
  const change = (next: string) => level.onChange({ ...level.values, [keyed]: next });
  const mistake = level.mistakes?.find((one) => one.key === keyed)?.sentence;
  const label = field.required ? field.label : `${field.label} (${t("parts.optional")})`;
  if (field.type === "truth") return <Tick label={field.label} help={field.meaning} checked={value === "true"} onChange={(checked) => change(String(checked))} />;
  if (field.choices?.length) {
    return (
      <Choice label={label} options={field.choices} value={value} onChoose={change} mistake={mistake} help={helpOf(field)} required={field.required ?? false} />
    );
  }
  const shared = { label, value, onInput: change, help: helpOf(field), mistake, required: field.required ?? false };
  if (field.refers_to) return <NameField {...shared} kind={field.refers_to as Kind} />;
  return <Field {...shared} />;
}

/** The name of something kept: what the lab keeps of that kind is offered. */
function NameField({ kind, ...field }: { kind: Kind; label: string; value: string; onInput: (value: string) => void; help: string; mistake: string | undefined; required: boolean }) {
  const { answer } = useAnswer<DocumentList>(paths.documents(kind));
  return <Field {...field} offers={(answer?.rows ?? []).map((row) => row.name)} />;
}

function ListField({ field, level }: { field: FormField; level: Level }) {
  const key = level.before + field.key;
  const kept = Math.max(countOf(level.values, key), field.at_least ?? 0);
  const [more, setMore] = useState(0);
  const count = kept + more;
  const one = field.one ?? field.label;
  const takeOut = (place: number) => {
    if (place <= kept) level.onChange(withoutPlace(level.values, key, place));
    else setMore(more - 1);
  };
  return (
    <fieldset class="group">
      <legend>{field.label}</legend>
      <p class="field-help">{field.meaning}</p>
      {[...Array(count).keys()].map((index) => (
        <div key={index} class="group-one" role="group" aria-label={`${one} ${index + 1}`}>
          <div class="group-one-head">
            <strong>
              {one} {index + 1}
            </strong>
            {count > (field.at_least ?? 0) ? (
              <Button kind="quiet" label={`${t("parts.form.take_out")}: ${one} ${index + 1}`} onPress={() => takeOut(index + 1)}>
                {t("parts.form.take_out")}
              </Button>
            ) : null}
          </div>
          <Fields {...level} fields={field.fields ?? []} before={`${key}[${index + 1}].`} />
        </div>
      ))}
      {count < (field.at_most ?? Infinity) ? <Button onPress={() => setMore(more + 1)}>{t("parts.form.add", { what: one })}</Button> : null}
    </fieldset>
  );
}
