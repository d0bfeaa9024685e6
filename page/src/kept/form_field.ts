// A field of a form by the key of a value in it.
import type { FormField } from "../api/types";

/** "heating[1].to" leads to the field of every stage. */
export function formField(fields: readonly FormField[], key: string): FormField | null {
  const [head = "", ...rest] = key.replace(/\[[^\]]*\]/g, "").split(".");
  const found = fields.find((field) => field.key === head);
  if (!found || rest.length === 0) return found ?? null;
  return formField(found.fields ?? [], rest.join("."));
}
