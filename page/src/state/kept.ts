// What this device keeps for itself (localStorage): choices, drafts, last answers. A device that keeps nothing is said, never hidden.
import { signal } from "@preact/signals";

const PREFIX = "heatwork:";

/** True once this device refused to keep something: what is typed would not survive a reload. */
export const keepsNothing = signal(false);

/** Where something is kept: for all of this device, or for this tab alone, where it outlives a reload. */
export type Where = "device" | "tab";

function storage(where: Where = "device"): Storage | null {
  try {
    return (where === "tab" ? globalThis.sessionStorage : globalThis.localStorage) ?? null;
  } catch {
    return null;
  }
}

export function kept<T>(key: string, where: Where = "device"): T | null {
  const text = storage(where)?.getItem(PREFIX + key);
  if (text === null || text === undefined) return null;
  try {
    return JSON.parse(text) as T;
  } catch {
    return null;
  }
}

/** False where the device is full or keeps nothing. */
export function keep(key: string, value: unknown, where: Where = "device"): boolean {
  const place = storage(where);
  if (!place) {
    keepsNothing.value = true;
    return false;
  }
  try {
    place.setItem(PREFIX + key, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

export function forget(key: string, where: Where = "device"): void {
  storage(where)?.removeItem(PREFIX + key);
}

/** Calls `changed` with the key, without our prefix, when another tab keeps or forgets something on this device. */
export function watchOtherTabs(changed: (key: string) => void): void {
  globalThis.addEventListener?.("storage", ({ key }) => {
    if (key?.startsWith(PREFIX)) changed(key.slice(PREFIX.length));
  });
}

/** Keys that begin with the given words, without our prefix. */
export function keysOf(beginning: string): string[] {
  const place = storage();
  const found: string[] = [];
  for (let i = 0; place && i < place.length; i += 1) {
    const key = place.key(i);
    if (key?.startsWith(PREFIX + beginning)) found.push(key.slice(PREFIX.length));
  }
  return found.sort();
}
