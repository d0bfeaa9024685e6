// One form being filled: what is typed, kept as a draft on this device; what is wrong with it; and keeping it in the lab.
import { useEffect, useMemo, useState } from "preact/hooks";
import { documents, Refused, Unreachable, type Kind, type KeptDocument, type Mistake } from "../api/client";
import { notify } from "../shell/notices";
import { draft, waitingDrafts, type Draft } from "../state/drafts";
import { useMistakesWhileFilling } from "../state/while_filling";
import { t } from "../words";
import { idOfKey } from "../parts";
import { changesOf, isChanged, laidOver, valuesOf, type Changes, type Values } from "../parts/form_values";
import { nameOf } from "./name_of";

export interface EditDraft {
  values: Values;
  name: string;
  reason: string;
}

export interface EditAsked {
  kind: Kind;
  /** The version that changes; null: a new document. */
  document: KeptDocument | null;
  /** What a new one begins with. */
  start: Values;
  onKept: (name: string) => void;
  /** Keeps a new one by a way of its own; else it is kept as a document. */
  send?: ((filled: Filled) => Promise<{ name: string; version: number }>) | undefined;
  /** Its name where none is typed; else it comes from the label. */
  nameFrom?: ((values: Values) => string) | undefined;
}

/** A new one, filled: only what is not empty. */
export interface Filled {
  name: string;
  set: Record<string, string>;
  reason: string;
}

export interface Edit {
  draft: Draft<EditDraft>;
  now: EditDraft;
  before: Values;
  changed: boolean;
  changes: Changes;
  /** Those told when it was to be kept. */
  mistakes: readonly Mistake[];
  /** Those, and what is wrong with the values typed since. */
  atFields: readonly Mistake[];
  /** The server's sentence where it says no to the whole. */
  refused: string | null;
  conflict: { from: number; newest: number } | null;
  /** The name of a new one under which another is kept already. */
  taken: string | null;
  busy: boolean;
  change: (part: Partial<EditDraft>) => void;
  keep: () => Promise<void>;
  takeTheirs: () => void;
  layOver: () => Promise<void>;
  closeConflict: () => void;
}

export function useEdit({ kind, document, start, onKept, send = sentTo(kind), nameFrom = nameOfLabel }: EditAsked): Edit {
  const [base, setBase] = useState(document);
  const version = base?.version ?? 0;
  const name = base?.name ?? "";
  const kept = useMemo(() => draft<EditDraft>({ screen: kind, document: name, version }), [kind, name, version]);
  const before = useMemo(() => (base ? valuesOf(base.values) : {}), [base]);
  const first = useMemo(() => ({ values: base ? before : start, name, reason: "" }), [base, before, start, name]);
  const now = kept.values.value ?? first;
  const [mistakes, setMistakes] = useState<readonly Mistake[]>([]);
  const [refused, setRefused] = useState<string | null>(null);
  const [conflict, setConflict] = useState<Edit["conflict"]>(null);
  const [taken, setTaken] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  useFocusOn(mistakes);
  useOlderDraft(kind, document, (older) => {
    setBase(older);
    setConflict({ from: older.version, newest: document?.version ?? older.version });
  });
  const change = (part: Partial<EditDraft>) => kept.change({ ...now, ...part });
  const mine = changesOf(before, now.values);
  const typed = useMistakesWhileFilling({ kind, name: base ? name : now.name.trim() || nameFrom(now.values) || kind, from: version, ...mine });
  const atFields = [...mistakes, ...typed.filter(({ key }) => !mistakes.some((told) => told.key === key))];
  const wrong = (error: unknown) => {
    if (error instanceof Refused && error.conflict && base) return setConflict(error.conflict);
    if (error instanceof Refused && error.conflict) {
      const { name: other } = error.conflict;
      setTaken(other);
      return setMistakes([{ of: "", key: "name", sentence: t("kept.name_taken", { name: other }) }]);
    }
    if (error instanceof Refused && error.mistakes.length > 0) setMistakes(error.mistakes);
    setRefused(error instanceof Unreachable ? t("kept.not_kept_offline") : error instanceof Error ? error.message : String(error));
  };
  const keep = async () => {
    setMistakes([]);
    setRefused(null);
    setTaken(null);
    const named = now.name.trim() || nameFrom(now.values);
    const missing = whatIsMissing(base !== null, named, now.reason);
    if (missing.length > 0) return setMistakes(missing);
    setBusy(true);
    try {
      const answer = base ? await documents.change(kind, name, { from: version, ...mine, reason: now.reason }) : await send({ name: named, set: mine.set, reason: now.reason.trim() });
      kept.end();
      notify(t("kept.kept_as", { name: answer.name, version: answer.version }));
      onKept(answer.name);
    } catch (error) {
      wrong(error);
    } finally {
      setBusy(false);
    }
  };
  const layOver = async () => {
    const newest = await documents.read(kind, name);
    const over = draft<EditDraft>({ screen: kind, document: name, version: newest.version });
    over.change({ ...now, values: laidOver(valuesOf(newest.values), mine) });
    kept.end();
    setConflict(null);
    setBase(newest);
  };
  const takeTheirs = () => {
    kept.end();
    onKept(name);
  };
  return { draft: kept, now, before, changed: base === null || isChanged(before, now.values), changes: mine, mistakes, atFields, refused, conflict, taken, busy, change, keep, takeTheirs, layOver, closeConflict: () => setConflict(null) };
}

/** What was typed over an earlier version waits under that one: the document is read as it was then, and both are shown. */
function useOlderDraft(kind: Kind, document: KeptDocument | null, found: (older: KeptDocument) => void): void {
  useEffect(() => {
    if (!document) return;
    const waiting = waitingDrafts().filter((one) => one.screen === kind && one.document === document.name);
    const older = waiting.find(({ version }) => version < document.version);
    if (!older || waiting.some(({ version }) => version === document.version)) return;
    void documents.read(kind, document.name, older.version).then(found, () => {});
  }, [kind, document]);
}

export function nameOfLabel(values: Values): string {
  return nameOf(values["label"] ?? "");
}

function sentTo(kind: Kind) {
  return ({ name, set, reason }: Filled) => documents.add(kind, reason === "" ? { name, set } : { name, set, reason });
}

/** What the page itself knows to be missing; all else the server says. */
function whatIsMissing(changing: boolean, name: string, reason: string): Mistake[] {
  if (changing && reason.trim() === "") return [{ of: "", key: "reason", sentence: t("kept.reason_missing") }];
  if (name === "") return [{ of: "", key: "name", sentence: t("kept.name_missing") }];
  return [];
}

function useFocusOn(mistakes: readonly Mistake[]): void {
  useEffect(() => {
    const first = mistakes[0];
    if (first) globalThis.document.getElementById(idOfKey(first.key))?.focus();
  }, [mistakes]);
}
