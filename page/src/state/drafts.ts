// Drafts: what was typed and is not kept in the lab yet, on this device, by screen, document and the version it began from.
import { signal, type Signal } from "@preact/signals";
import { forget, keep, keepsNothing, kept, keysOf } from "./kept";

export interface DraftPlace {
  screen: string;
  /** Name of the document; "" for a new one. */
  document: string;
  /** Version the draft began from; 0 for a new one. */
  version: number;
}

export interface StoredDraft<T> {
  values: T;
  /** When it was last typed in, UTC. */
  at: string;
}

/** Which lab the page works in; a draft of the demo lab never shows up in the lab itself. */
export const place = signal<"lab" | "demo">("lab");

/** "draft:", the lab, screen, name and version, apart by a mark that no name holds. */
export function draftKey({ screen, document, version }: DraftPlace): string {
  return ["draft", place.value, screen, document, String(version)].join("|");
}

export interface Draft<T> {
  /** What is typed so far, or null where nothing differs from what is kept. */
  readonly values: Signal<T | null>;
  /** When the draft was last changed. */
  readonly at: Signal<string | null>;
  change(next: T): void;
  /** Called once the store has answered that it is kept, or when the person throws the draft away. */
  end(): void;
}

export function draft<T>(where: DraftPlace): Draft<T> {
  const key = draftKey(where);
  const found = kept<StoredDraft<T>>(key);
  const values = signal<T | null>(found?.values ?? null);
  const at = signal<string | null>(found?.at ?? null);
  return {
    values,
    at,
    change(next) {
      values.value = next;
      at.value = new Date().toISOString();
      if (!keep(key, { values: next, at: at.value } satisfies StoredDraft<T>)) keepsNothing.value = true;
    },
    end() {
      values.value = null;
      at.value = null;
      forget(key);
    },
  };
}

/** Drafts that wait on this device for the lab the page works in, newest first. */
export function waitingDrafts(): (DraftPlace & { at: string })[] {
  return keysOf(`draft|${place.value}|`)
    .map((key) => {
      const [, , screen = "", document = "", version = "0"] = key.split("|");
      return { screen, document, version: Number(version), at: kept<StoredDraft<unknown>>(key)?.at ?? "" };
    })
    .sort((a, b) => b.at.localeCompare(a.at));
}
