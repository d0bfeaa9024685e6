// The values of a document as a form holds them: key to typed text; and what of them a change says to the server.
// An empty text is a field that is shown and has nothing in it yet.
import type { DocumentValue, FormField } from "../api/types";
import { asPeopleWrite, asProgramsWrite, isQuantity } from "../words";

export type Values = Readonly<Record<string, string>>;

export interface Changes {
  set: Record<string, string>;
  unset: string[];
}

export function valuesOf(kept: readonly DocumentValue[]): Values {
  return Object.fromEntries(kept.map(({ key, typed, text, si }) => [key, si !== null || isQuantity(typed || text) ? asPeopleWrite(typed || text) : typed || text]));
}

/** Whether two texts are one value: the same letters, or one number written in two ways. */
function saysTheSame(one: string | undefined, other: string): boolean {
  if (one === undefined || one === other) return one === other;
  return isQuantity(one) && isQuantity(other) && asProgramsWrite(asPeopleWrite(one)) === asProgramsWrite(asPeopleWrite(other));
}

/** "heating[2].to" is inside "heating[2]" and "heating"; "heating_more" is not. */
function isInside(key: string, outer: string): boolean {
  return key === outer || (key.startsWith(outer) && (key[outer.length] === "." || key[outer.length] === "["));
}

/** Whether anything is typed or begun at a key or below it. */
export function stands(values: Values, outer: string): boolean {
  return Object.keys(values).some((key) => isInside(key, outer));
}

/** All at a key and below it gone. */
export function without(values: Values, outer: string): Values {
  return Object.fromEntries(Object.entries(values).filter(([key]) => !isInside(key, outer)));
}

/** How many there are of a list, by the keys that have a value. Places count from 1. */
export function countOf(values: Values, list: string): number {
  return Object.keys(values).reduce((most, key) => Math.max(most, placeIn(key, list)), 0);
}

function placeIn(key: string, list: string): number {
  return key.startsWith(`${list}[`) ? Number.parseInt(key.slice(list.length + 1), 10) || 0 : 0;
}

export function placeOf(list: string, place: number): string {
  return `${list}[${place}]`;
}

/** One taken out of a list: those behind it move up by a place. */
export function withoutPlace(values: Values, list: string, place: number): Values {
  const next: Record<string, string> = {};
  for (const [key, value] of Object.entries(values)) {
    const at = placeIn(key, list);
    if (at === place) continue;
    next[at > place ? placeOf(list, at - 1) + key.slice(placeOf(list, at).length) : key] = value;
  }
  return next;
}

/** A group or place of a list begun: its needed fields empty, or the first where none is needed; lists that need one within it too. */
export function begun(values: Values, outer: string, fields: readonly FormField[]): Values {
  const found: Record<string, string> = {};
  for (const field of fields) {
    const key = `${outer}.${field.key}`;
    const inner = field.type === "group" ? key : field.type === "list" ? placeOf(key, 1) : null;
    const needed = field.required || (field.at_least ?? 0) > 0;
    if (needed && inner !== null) Object.assign(found, begun({}, inner, field.fields ?? []));
    else if (needed) found[key] = "";
  }
  const first = fields.find((field) => field.type !== "group" && field.type !== "list");
  if (Object.keys(found).length === 0 && first) found[`${outer}.${first.key}`] = "";
  return { ...values, ...found };
}

/** What must be there from the start: groups and lists that a document cannot do without. */
export function begunForm(fields: readonly FormField[]): Values {
  const needed = fields.filter((field) => (field.type === "group" || field.type === "list") && (field.required || (field.at_least ?? 0) > 0));
  return needed.reduce<Values>((values, field) => begun(values, field.type === "list" ? placeOf(field.key, 1) : field.key, field.fields ?? []), {});
}

/** The whole of what is gone: the group or place that has nothing left, else the single key. */
function goneAs(key: string, after: Values): string {
  const parts = key.split(".");
  for (let depth = 1; depth < parts.length; depth += 1) {
    const outer = parts.slice(0, depth).join(".");
    if (!stands(after, outer)) return outer;
  }
  return key;
}

/** What is otherwise than kept: values set, and keys, whole groups or places of lists taken out. */
export function changesOf(before: Values, after: Values): Changes {
  const filled: Record<string, string> = {};
  for (const [key, text] of Object.entries(after)) if (text.trim() !== "") filled[key] = text.trim();
  const set: Record<string, string> = {};
  for (const [key, text] of Object.entries(filled)) if (!saysTheSame(before[key], text)) set[key] = text;
  const gone = Object.keys(before).filter((key) => !(key in filled));
  return { set, unset: [...new Set(gone.map((key) => goneAs(key, filled)))] };
}

export function isChanged(before: Values, after: Values): boolean {
  const { set, unset } = changesOf(before, after);
  return Object.keys(set).length > 0 || unset.length > 0;
}

/** Changes laid over other values: those of a newer version. */
export function laidOver(values: Values, { set, unset }: Changes): Values {
  return { ...unset.reduce<Values>(without, values), ...set };
}

/** "hold: 1 min → 2 min", for a person to compare. */
export function changesInWords(before: Values, after: Values, label: (key: string) => string): string[] {
  const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])];
  return keys.filter((key) => (before[key] ?? "") !== (after[key] ?? "")).map((key) => `${label(key)}: ${before[key] || "–"} → ${after[key] || "–"}`);
}

/** "heating[2].hold" in the words of the form: "heating stage 2, hold"; a key the form does not know stays as it is. */
export function labelOfKey(fields: readonly FormField[], key: string): string {
  const found = /^([a-z_]+)(?:\[(\d+)\])?(?:\.(.*))?$/.exec(key);
  const field = fields.find((each) => each.key === found?.[1]);
  if (!found || !field) return key;
  const [, , place, rest] = found;
  const own = place === undefined ? field.label : `${field.one ?? field.label} ${place}`;
  return rest === undefined ? own : `${own}, ${labelOfKey(field.fields ?? [], rest)}`;
}

/** Values typed with commas, one by one: "16, 17". */
export function several(text: string): string[] {
  return text.split(",").map((one) => one.trim()).filter((one) => one !== "");
}
