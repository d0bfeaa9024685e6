import { useMemo } from "preact/hooks";
import { paths, type Form, type FormField, type Kind } from "../api/client";
import { useAnswer } from "./use_answer";

function gather(fields: readonly FormField[], into: Map<string, string>): void {
  for (const field of fields) {
    for (const { value, label } of field.choices ?? []) into.set(`${field.key} ${value}`, label);
    gather(field.fields ?? [], into);
  }
}

/** What the words of a kind's choices are called in the reader's language: ("stage", "glaze") is "Glanzbrand". */
export function useChoiceWords(kind: Kind): (key: string, value: string) => string {
  const { answer } = useAnswer<Form>(paths.form(kind));
  const words = useMemo(() => {
    const found = new Map<string, string>();
    gather(answer?.fields ?? [], found);
    return found;
  }, [answer]);
  return (key, value) => words.get(`${key} ${value}`) ?? value;
}
