// What stands on the bench: the kept documents of a firing, what was typed over them, and the request they make together.
import type { AskedFiring, NewFiring } from "./answers";
import { countOf, difference, entryKey, isUnchanged, type Change, type Values } from "./values";

/** Documents by what they are of: "firing", "program dentine", "piece crown-16", "tray light", "furnace corner". */
export type Sheets = Readonly<Record<string, Values>>;

export interface Bench {
  /** Name of the kept firing; null for one that is new. */
  kept: string | null;
  /** As kept. */
  base: Sheets;
  /** Documents that were typed in, whole. */
  typed: Sheets;
  /** Versions of what is kept; none of what ships. */
  versions: Readonly<Record<string, number>>;
}

export const FIRING = "firing";

export function valuesOf(bench: Bench, of: string): Values {
  return bench.typed[of] ?? bench.base[of] ?? {};
}

/** What was typed, with one document changed; what is again as kept is no change. */
export function typedInto(bench: Bench, of: string, values: Values): Sheets {
  const { [of]: _before, ...others } = bench.typed;
  const base = bench.base[of];
  return base && isUnchanged(difference(base, values)) ? others : { ...others, [of]: values };
}

export function namesOf(bench: Bench): { program: string; tray: string; furnace: string; instruction: string; pieces: string[] } {
  const firing = valuesOf(bench, FIRING);
  return {
    program: firing["program"] ?? "",
    tray: firing["tray"] ?? "",
    furnace: firing["furnace"] ?? "",
    instruction: firing["instruction"] ?? "",
    pieces: Array.from({ length: countOf(firing, "piece") }, (_, index) => firing[`${entryKey("piece", index)}.piece`] ?? ""),
  };
}

/** The documents a firing takes besides itself, as its values name them now. */
export function documentsOf(bench: Bench): string[] {
  const names = namesOf(bench);
  return [`program ${names.program}`, `tray ${names.tray}`, `furnace ${names.furnace}`, ...names.pieces.map((piece) => `piece ${piece}`)].filter((of) => !of.endsWith(" "));
}

/** What was typed over one document; nothing while its kept version is not here yet. */
export function changeOf(bench: Bench, of: string): Change {
  const typed = bench.typed[of];
  const base = bench.base[of];
  return typed && base ? difference(base, typed) : { set: {}, unset: [] };
}

/** The documents that were changed and that this firing takes. */
export function changedDocuments(bench: Bench): string[] {
  const firing = bench.kept === null ? [] : [FIRING];
  return [...firing, ...documentsOf(bench)].filter((of) => !isUnchanged(changeOf(bench, of)));
}

export function programIsChanged(bench: Bench): boolean {
  return !isUnchanged(changeOf(bench, `program ${namesOf(bench).program}`));
}

/** The request's name of a document: a firing has one program, so that goes by "program" alone. */
export function askedName(of: string): string {
  return of.startsWith("program ") ? "program" : of;
}

/** The document a mistake of an answer is of: "program" is the firing's own. */
export function documentNamed(bench: Bench, asked: string): string {
  return asked === "program" ? `program ${namesOf(bench).program}` : asked;
}

export function askedFiring(bench: Bench): AskedFiring {
  const set: AskedFiring["set"] = {};
  const unset: AskedFiring["unset"] = {};
  const from: Record<string, number> = {};
  for (const of of changedDocuments(bench)) {
    const change = changeOf(bench, of);
    if (Object.keys(change.set).length) set[askedName(of)] = change.set;
    if (change.unset.length) unset[askedName(of)] = change.unset;
    const version = bench.versions[of] ?? 0;
    if (version > 0) from[askedName(of)] = version;
  }
  return bench.kept === null ? { new: newFiring(bench), set, unset, from } : { firing: bench.kept, set, unset, from };
}

function newFiring(bench: Bench): NewFiring {
  const firing = valuesOf(bench, FIRING);
  const names = namesOf(bench);
  const chamber: Record<string, string> = {};
  for (const [key, value] of Object.entries(firing)) if (key.startsWith("chamber.")) chamber[key.slice("chamber.".length)] = value;
  return {
    stage: firing["stage"] ?? "",
    pieces: names.pieces.map((piece, index) => ({ piece, place: firing[`${entryKey("piece", index)}.place`] ?? "middle" })),
    tray: names.tray,
    furnace: names.furnace,
    program: names.program,
    ...(names.instruction ? { instruction: names.instruction } : {}),
    chamber,
  };
}

/** Whether all is named that a rehearsal needs. */
export function isWhole(bench: Bench): boolean {
  const firing = valuesOf(bench, FIRING);
  const names = namesOf(bench);
  return Boolean(firing["stage"] && names.program && names.tray && names.furnace && names.pieces.length > 0 && names.pieces.every(Boolean));
}

/** The name of a new document after one that is there: "dentine" to "dentine-2", "dentine-2" to "dentine-3". */
export function nextName(name: string): string {
  const found = /^(.*?)-(\d+)$/.exec(name);
  return found ? `${found[1]}-${Number(found[2]) + 1}` : `${name}-2`;
}
