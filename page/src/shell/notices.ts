// Short notices that something happened: shown for a while, read out by a screen reader.
import { signal } from "@preact/signals";

export interface Notice {
  id: number;
  text: string;
  kind: "done" | "wrong";
}

export const notices = signal<readonly Notice[]>([]);
const SHOWN_MS = 8000;
let last = 0;

export function takeAway(id: number): void {
  notices.value = notices.value.filter((notice) => notice.id !== id);
}

/** What went wrong stays until it is taken away. */
export function notify(text: string, kind: Notice["kind"] = "done"): void {
  last += 1;
  const id = last;
  notices.value = [...notices.value.filter((notice) => notice.text !== text).slice(-2), { id, text, kind }];
  if (kind === "done") setTimeout(() => takeAway(id), SHOWN_MS);
}
