import { paths, type Form, type FormField, type Kind } from "../api/client";
import { useAnswer } from "../state/use_answer";

function fieldAt(fields: readonly FormField[], path: readonly string[]): FormField | undefined {
  const field = fields.find((each) => each.key === path[0]);
  return path.length <= 1 || !field ? field : fieldAt(field.fields ?? [], path.slice(1));
}

/** Says the fixed words of a field, "fire again" for one, in the language of the reader; as they are while the form is not here. */
export function useChoiceWords(kind: Kind, path: string): (value: string) => string {
  const form = useAnswer<Form>(paths.form(kind));
  const choices = form.answer ? (fieldAt(form.answer.fields, path.split("."))?.choices ?? []) : [];
  return (value) => choices.find((choice) => choice.value === value)?.label ?? value;
}
