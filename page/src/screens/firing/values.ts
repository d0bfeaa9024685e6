// What a document holds as flat values, as they were typed, and what two of them do not share.

/** Values by key, "heating[1].to" to "817 °C"; a key that is not there is not given. */
export type Values = Readonly<Record<string, string>>;

export interface Change {
  set: Record<string, string>;
  /** Keys taken out, with all below them; of a list the last first. */
  unset: string[];
}

/** The key of an entry of a list, counted from 0 here and from 1 in keys, as people count: of "heating", 0 the key "heating[1]". */
export function entryKey(list: string, index: number): string {
  return `${list}[${index + 1}]`;
}

export function without(values: Values, key: string): Values {
  const next: Record<string, string> = {};
  for (const [each, value] of Object.entries(values)) if (!isOrIsUnder(each, key)) next[each] = value;
  return next;
}

export function withValue(values: Values, key: string, value: string): Values {
  return { ...values, [key]: value };
}

function isOrIsUnder(key: string, above: string): boolean {
  return key === above || (key.startsWith(above) && (key[above.length] === "." || key[above.length] === "["));
}

export function holds(values: Values, above: string): boolean {
  return Object.keys(values).some((key) => isOrIsUnder(key, above));
}

/** How many entries a list has: of "heating[1].to" and "heating[2].to" two. */
export function countOf(values: Values, list: string): number {
  let count = 0;
  while (holds(values, entryKey(list, count))) count += 1;
  return count;
}

/** An entry of a list taken out; those after it move up. */
export function withoutEntry(values: Values, list: string, index: number): Values {
  const next: Record<string, string> = {};
  for (const [key, value] of Object.entries(values)) {
    const found = entryOf(key, list);
    if (!found || found.index < index) next[key] = value;
    else if (found.index > index) next[entryKey(list, found.index - 1) + found.rest] = value;
  }
  return next;
}

/** An entry put into a list; those at its place and after it move down. */
export function withEntry(values: Values, list: string, index: number, entry: Values): Values {
  const next: Record<string, string> = {};
  for (const [key, value] of Object.entries(values)) {
    const found = entryOf(key, list);
    next[found && found.index >= index ? entryKey(list, found.index + 1) + found.rest : key] = value;
  }
  for (const [key, value] of Object.entries(entry)) next[`${entryKey(list, index)}.${key}`] = value;
  return next;
}

function entryOf(key: string, list: string): { index: number; rest: string } | null {
  const found = key.startsWith(`${list}[`) ? /^\[(\d+)\](.*)$/.exec(key.slice(list.length)) : null;
  return found ? { index: Number(found[1]) - 1, rest: found[2] ?? "" } : null;
}

/** What makes `now` of `base`: values to set, and keys to take out, whole entries and groups by one key. */
export function difference(base: Values, now: Values): Change {
  const set: Record<string, string> = {};
  for (const [key, value] of Object.entries(now)) if (base[key] !== value) set[key] = value;
  const gone = new Set<string>();
  for (const key of Object.keys(base)) if (!(key in now)) gone.add(highestMissing(key, now));
  return { set, unset: [...gone].sort(lastFirst) };
}

/** The shortest beginning of a key below which nothing is left. */
function highestMissing(key: string, now: Values): string {
  const ends = [...key.matchAll(/(\])|(\.)/g)].map((match) => (match[1] ? match.index + 1 : match.index));
  for (const end of ends) {
    const above = key.slice(0, end);
    if (!holds(now, above)) return above;
  }
  return key;
}

function lastFirst(one: string, other: string): number {
  return other.localeCompare(one, "en", { numeric: true });
}

/** A change laid over values, such as over a newer version. */
export function applied(values: Values, change: Change): Values {
  let next = values;
  for (const key of change.unset) next = without(next, key);
  return { ...next, ...change.set };
}

export function isUnchanged(change: Change): boolean {
  return Object.keys(change.set).length === 0 && change.unset.length === 0;
}
