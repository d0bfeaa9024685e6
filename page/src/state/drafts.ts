// Drafts: what was typed and is not kept in the lab yet, on this device, by screen, document and the version it began from.
import { signal, type Signal } from "@preact/signals";
import { forget, keep, keepsNothing, kept, keysOf, watchOtherTabs } from "./kept";

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
  /** Who was at the bench then. */
  by?: string | null;
}

/** Which lab the page works in; a draft of the demo lab never shows up in the lab itself. */
export const place = signal<"lab" | "demo">("lab");

/** Who is at the bench: on a device that several share, a draft says whose it is. */
export const typist = signal<string | null>(null);

/** "draft:", the lab, screen, name and version, apart by a mark that no name holds. */
export function draftKey({ screen, document, version }: DraftPlace): string {
  return ["draft", place.value, screen, document, String(version)].join("|");
}

export interface Draft<T> {
  /** What is typed so far, or null where nothing differs from what is kept. */
  readonly values: Signal<T | null>;
  /** When the draft was last changed. */
  readonly at: Signal<string | null>;
  /** Who typed it, where that was somebody else than who is at the bench now. */
  readonly by: Signal<string | null>;
  /** When another tab of this device last typed into the same, while what is typed here stays here. */
  readonly elsewhere: Signal<string | null>;
  change(next: T): void;
  /** What the other tab typed in place of what was typed here; null where there is nothing any more. */
  takeOther(): T | null;
  /** Called once the store has answered that it is kept, or when the person throws the draft away. */
  end(): void;
}

/** The draft of this tab by key: told when another tab of the device types into the same. */
const open = new Map<string, () => void>();
watchOtherTabs((key) => open.get(key)?.());

export function draft<T>(where: DraftPlace): Draft<T> {
  const key = draftKey(where);
  const device = () => kept<StoredDraft<T>>(key);
  // Each tab goes on with what was typed in it; a new one with the last that was typed on this device.
  const found = kept<StoredDraft<T>>(key, "tab") ?? device();
  let seen = found?.at ?? null;
  const values = signal<T | null>(found?.values ?? null);
  const at = signal<string | null>(seen);
  const by = signal<string | null>(foreign(found?.by));
  const elsewhere = signal<string | null>(null);
  const keepHere = (stored: StoredDraft<T>) => {
    seen = stored.at;
    keep(key, stored, "tab");
    if (!keep(key, stored)) keepsNothing.value = true;
  };
  const look = () => {
    const there = device();
    const mine = values.peek();
    elsewhere.value = there && there.at !== seen && mine !== null ? there.at : null;
    // The other tab kept or threw away its own: what is typed here goes on waiting on this device.
    if (!there && mine !== null && seen !== null) keepHere({ values: mine, at: seen, by: by.peek() ?? typist.peek() });
  };
  look();
  open.set(key, look);
  return {
    values,
    at,
    by,
    elsewhere,
    change(next) {
      values.value = next;
      at.value = new Date().toISOString();
      by.value = null;
      keepHere({ values: next, at: at.value, by: typist.peek() });
    },
    takeOther() {
      const there = device();
      elsewhere.value = null;
      if (!there) return null;
      seen = at.value = there.at;
      by.value = foreign(there.by);
      values.value = there.values;
      keep(key, there, "tab");
      return there.values;
    },
    end() {
      forget(key, "tab");
      // What another tab typed since is not thrown away with this.
      if (device()?.at === seen) forget(key);
      values.value = null;
      at.value = by.value = elsewhere.value = seen = null;
    },
  };
}

function foreign(by: string | null | undefined): string | null {
  return by && by !== typist.peek() ? by : null;
}

/** Counted up when drafts are thrown away from elsewhere than where they were typed. */
const thrown = signal(0);

/** Drafts that wait on this device for the lab the page works in, newest first. */
export function waitingDrafts(): (DraftPlace & { at: string; by: string | null })[] {
  void thrown.value;
  return keysOf(`draft|${place.value}|`)
    .map((key) => {
      const [, , screen = "", document = "", version = "0"] = key.split("|");
      const found = kept<StoredDraft<unknown>>(key);
      return { screen, document, version: Number(version), at: found?.at ?? "", by: foreign(found?.by) };
    })
    .sort((a, b) => b.at.localeCompare(a.at));
}

/** All that waits for the lab the page works in, when that lab itself goes. */
export function forgetDrafts(): void {
  for (const key of keysOf(`draft|${place.value}|`)) {
    forget(key, "tab");
    forget(key);
  }
  thrown.value += 1;
}
