// What this device keeps for itself (localStorage): choices, drafts, last answers. A device that keeps nothing is said, never hidden.
import { signal } from "@preact/signals";

const PREFIX = "heatwork:";

/** True once this device refused to keep something: what is typed would not survive a reload. */
export const keepsNothing = signal(false);

function storage(): Storage | null {
  try {
    return globalThis.localStorage ?? null;
  } catch {
    return null;
  }
}

export function kept<T>(key: string): T | null {
  const text = storage()?.getItem(PREFIX + key);
  if (text === null || text === undefined) return null;
  try {
    return JSON.parse(text) as T;
  } catch {
    return null;
  }
}

/** False where the device is full or keeps nothing. */
export function keep(key: string, value: unknown): boolean {
  const place = storage();
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

export function forget(key: string): void {
  storage()?.removeItem(PREFIX + key);
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
