// The values of a document as a form holds them: key to typed text; and what of them a change says to the server.
import type { DocumentValue, FormField } from "../api/types";

export type Values = Readonly<Record<string, string>>;

export function valuesOf(kept: readonly DocumentValue[]): Values {
  return Object.fromEntries(kept.map(({ key, typed, text }) => [key, typed || text]));
}

/** "heating[2].to" is inside "heating[2]". */
function isInside(key: string, outer: string): boolean {
  return key === outer || key.startsWith(`${outer}.`);
}

/** How many there are of a list, by the keys that have a value. Places count from 1. */
export function countOf(values: Values, list: string): number {
  let most = 0;
  for (const key of Object.keys(values)) {
    const place = key.startsWith(`${list}[`) ? Number(/^\[(\d+)\]/.exec(key.slice(list.length))?.[1] ?? 0) : 0;
    most = Math.max(most, place);
  }
  return most;
}

/** One taken out of a list: those behind it move up by a place. */
export function withoutPlace(values: Values, list: string, place: number): Values {
  const next: Record<string, string> = {};
  for (const [key, value] of Object.entries(values)) {
    const found = key.startsWith(`${list}[`) ? /^\[(\d+)\](.*)$/.exec(key.slice(list.length)) : null;
    const at = Number(found?.[1] ?? 0);
    if (!found || at < place) next[key] = value;
    else if (at > place) next[`${list}[${at - 1}]${found[2] ?? ""}`] = value;
  }
  return next;
}

/** What is otherwise than kept: values set, and keys taken out; of a list that became shorter its last places as a whole. */
export function changesOf(before: Values, after: Values, lists: readonly string[] = []): { set: Record<string, string>; unset: string[] } {
  const set: Record<string, string> = {};
  const unset: string[] = [];
  for (const list of lists) for (let at = countOf(before, list); at > countOf(after, list); at -= 1) unset.push(`${list}[${at}]`);
  for (const [key, value] of Object.entries(after)) if (value.trim() !== "" && value !== before[key]) set[key] = value.trim();
  for (const key of Object.keys(before)) {
    if ((after[key] ?? "").trim() === "" && !unset.some((gone) => isInside(key, gone))) unset.push(key);
  }
  return { set, unset };
}

/** Keys of the lists of a form, outer ones only. */
export function listsOf(fields: readonly FormField[]): string[] {
  return fields.filter((field) => field.type === "list").map((field) => field.key);
}

/** "hold: 1 min → 2 min", for a person to compare. */
export function changesInWords(before: Values, after: Values, label: (key: string) => string): string[] {
  const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])];
  return keys.filter((key) => (before[key] ?? "") !== (after[key] ?? "")).map((key) => `${label(key)}: ${before[key] || "–"} → ${after[key] || "–"}`);
}
