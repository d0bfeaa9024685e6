// A device for the tests: what a browser offers and the page uses, in plain memory; as full as a test wants it.
import { beforeEach } from "vitest";

class Memory implements Storage {
  private readonly rows = new Map<string, string>();
  /** Characters that fit; beyond that it refuses as a browser does. */
  room = Infinity;

  get length(): number {
    return this.rows.size;
  }
  clear(): void {
    this.rows.clear();
  }
  getItem(key: string): string | null {
    return this.rows.get(key) ?? null;
  }
  key(index: number): string | null {
    return [...this.rows.keys()][index] ?? null;
  }
  removeItem(key: string): void {
    this.rows.delete(key);
  }
  setItem(key: string, value: string): void {
    const others = [...this.rows].reduce((sum, [name, text]) => (name === key ? sum : sum + name.length + text.length), 0);
    if (others + key.length + value.length > this.room) throw new DOMException("full", "QuotaExceededError");
    this.rows.set(key, value);
  }
}

export const device = new Memory();
export const tab = new Memory();
Object.defineProperty(globalThis, "localStorage", { value: device, configurable: true });
Object.defineProperty(globalThis, "sessionStorage", { value: tab, configurable: true });

beforeEach(() => {
  device.clear();
  tab.clear();
  device.room = Infinity;
});
