// Kept documents read for the bench: their values as typed, or in the scale the reader chose; from this device while the server is away.
import { ask, documents, paths, Unreachable, type KeptDocument, type Kind } from "../../api/client";
import { lastAnswer, rememberAnswer } from "../../state/answers";
import type { Units } from "../../words";
import { isOfScale, shownIn } from "./typed_units";
import { countOf, entryKey, type Values } from "./values";

export interface Read {
  values: Values;
  version: number;
  newest: number;
  label: string;
  /** Whether this is an earlier answer, for the server is away; when it was given. */
  old: string | null;
  document: KeptDocument;
}

/** Values as the table shows them: quantities in the scale and with the mark the reader chose, all else as it was typed. */
export function shownValues(document: KeptDocument, units: Units): Values {
  return Object.fromEntries(document.values.map(({ key, typed, si }) => [key, si === null && !isOfScale(typed) ? typed : shownIn(typed, units)]));
}

function readOf(document: KeptDocument, units: Units, old: string | null): Read {
  const values = shownValues(document, units);
  return { values, version: document.version, newest: document.newest, label: values["label"] ?? "", old, document };
}

/** Reads a kept document; while the server is away the last answer this device has of it. */
export async function readKept(kind: Kind, name: string, units: Units, version?: number): Promise<Read> {
  const question = paths.document(kind, name, version);
  try {
    const document = await documents.read(kind, name, version);
    rememberAnswer(question, document, new Date().toISOString());
    return readOf(document, units, null);
  } catch (error) {
    const last = error instanceof Unreachable ? lastAnswer<KeptDocument>(question) : null;
    if (!last) throw error;
    return readOf(last.answer, units, last.at);
  }
}

/** The answer to a reading question; while the server is away the last one this device has. */
export async function readRemembered<T>(question: string): Promise<T> {
  try {
    const answer = await ask<T>(question);
    rememberAnswer(question, answer, new Date().toISOString());
    return answer;
  } catch (error) {
    const last = error instanceof Unreachable ? lastAnswer<T>(question) : null;
    if (!last) throw error;
    return last.answer;
  }
}

/** The versions a firing was started with, by document: "program dentine" to 2. Nothing of one that is planned. */
export function versionsUsed(firing: Values): Readonly<Record<string, number>> {
  const used: Record<string, number> = {};
  for (let index = 0; index < countOf(firing, "record.used"); index += 1) {
    const at = entryKey("record.used", index);
    const version = Number(firing[`${at}.version`] ?? 0);
    if (version > 0) used[`${firing[`${at}.kind`] ?? ""} ${firing[`${at}.name`] ?? ""}`] = version;
  }
  return used;
}

/** "piece crown-16" is the piece of that name. */
export function kindAndName(of: string): { kind: Kind; name: string } {
  const at = of.indexOf(" ");
  return { kind: of.slice(0, at) as Kind, name: of.slice(at + 1) };
}
