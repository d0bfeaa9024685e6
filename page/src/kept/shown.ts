// A kept document in sections, in the order of its form: single values, then groups, then lists with a row an item.
import type { DocumentValue, FormField } from "../api/types";
import { countOf, placeOf } from "../parts/form_values";

export interface ShownValue {
  field: FormField;
  value: DocumentValue;
}

export type Section =
  | { kind: "values"; title: string | null; values: ShownValue[] }
  | { kind: "rows"; title: string; fields: FormField[]; rows: (ShownValue | null)[][] };

/** What a heading says already. */
const SAID_ABOVE = new Set(["name", "label", "note"]);

type ByKey = ReadonlyMap<string, DocumentValue>;

export function isTable(field: FormField): boolean {
  return field.type === "group" || field.type === "list";
}

export function sections(fields: readonly FormField[], values: readonly DocumentValue[], leaveOut: ReadonlySet<string> = SAID_ABOVE): Section[] {
  return within(fields.filter((field) => !leaveOut.has(field.key)), new Map(values.map((value) => [value.key, value])), "", null);
}

function within(fields: readonly FormField[], values: ByKey, path: string, title: string | null): Section[] {
  const own = fields.filter((field) => !isTable(field)).flatMap((field) => shown(field, values, path));
  const found: Section[] = own.length > 0 ? [{ kind: "values", title, values: own }] : [];
  for (const field of fields.filter(isTable)) {
    const inner = path + field.key;
    const named = title === null ? field.label : `${title}, ${field.label}`;
    if (field.type === "group") found.push(...within(field.fields ?? [], values, `${inner}.`, named));
    else found.push(...listed(field, values, inner, named));
  }
  return found;
}

function shown(field: FormField, values: ByKey, path: string): ShownValue[] {
  const value = values.get(path + field.key);
  return value ? [{ field, value }] : [];
}

/** Items of plain values stand as rows of one table; items with tables in them as sections of their own. */
function listed(field: FormField, values: ByKey, path: string, title: string): Section[] {
  const fields = field.fields ?? [];
  const many = countOf(Object.fromEntries([...values.keys()].map((key) => [key, ""])), path);
  const numbers = Array.from({ length: many }, (_, at) => at + 1);
  if (many === 0) return [];
  if (fields.some(isTable)) return numbers.flatMap((number) => within(fields, values, `${placeOf(path, number)}.`, `${field.one ?? field.label} ${number}`));
  const cellOf = (each: FormField, number: number) => shown(each, values, `${placeOf(path, number)}.`)[0] ?? null;
  const used = fields.filter((each) => numbers.some((number) => cellOf(each, number) !== null));
  return [{ kind: "rows", title, fields: used, rows: numbers.map((number) => used.map((each) => cellOf(each, number))) }];
}
