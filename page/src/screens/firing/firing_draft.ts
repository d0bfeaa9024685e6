// What was typed and is not kept: held on this device as changes to the kept documents, so that it can be laid over newer ones.
import { effect } from "@preact/signals";
import { draft, waitingDrafts, type Draft } from "../../state/drafts";
import type { FiringDesk } from "./desk";
import { FIRING } from "./bench";
import type { Change } from "./values";

export interface FiringDraft {
  changes: Record<string, Change>;
  /** Versions the changes began from, by document. */
  from: Record<string, number>;
}

/** A document of which a newer version was kept since the draft began. */
export interface Outrun {
  of: string;
  from: number;
  newest: number;
}

const SCREEN = "firing";

/** The draft of a firing: of the version that is kept now, or the newest one of an earlier version. */
export function draftOf(name: string | null, pieces: readonly string[]): Draft<FiringDraft> {
  const document = name ?? (pieces.length ? `new ${pieces.join(" ")}` : "");
  const waiting = waitingDrafts().find((one) => one.screen === SCREEN && one.document === document);
  return draft<FiringDraft>({ screen: SCREEN, document, version: waiting?.version ?? 0 });
}

/** Which documents of a draft were kept anew meanwhile. */
export function outrun(kept: FiringDraft, versions: Readonly<Record<string, number>>): Outrun[] {
  return Object.keys(kept.changes).flatMap((of) => {
    const from = kept.from[of];
    const newest = versions[of];
    return from !== undefined && newest !== undefined && newest > from ? [{ of, from, newest }] : [];
  });
}

function isSame(one: Record<string, Change>, other: Record<string, Change> | undefined): boolean {
  const inOrder = (changes: Record<string, Change>) => JSON.stringify(Object.entries(changes).map(([of, { set, unset }]) => [of, Object.entries(set).sort(), [...unset].sort()]).sort());
  return other !== undefined && inOrder(one) === inOrder(other);
}

/** Keeps the draft in step with what is typed; returns the way to stop. */
export function watchTyping(desk: FiringDesk, of: Draft<FiringDraft>): () => void {
  let before = desk.history.peek().now;
  return effect(() => {
    const { now } = desk.history.value;
    if (now === before) return;
    before = now;
    const changes = desk.changes();
    if (Object.keys(changes).length === 0 || (desk.name === null && Object.keys(changes).length === 1 && !changes[FIRING]?.set["stage"])) of.end();
    // A draft that was only laid over what is kept stays whose and of when it was.
    else if (!isSame(changes, of.values.peek()?.changes)) of.change({ changes, from: { ...desk.versions.peek() } });
  });
}
