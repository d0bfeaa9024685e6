// How long it takes from the key to the picture on the screen, as marks a browser test reads.
import type { Depth } from "./while_typing";

export const KEY_TO_PICTURE = "firing: key to picture";
export const KEY_TO_BANDS = "firing: key to bands";
export const KEY_TO_STRESS = "firing: key to stress";
export const FIRST_PICTURE = "firing: first picture";

const MARKS: Readonly<Record<Depth, string>> = { numbers: KEY_TO_PICTURE, bands: KEY_TO_BANDS, stress: KEY_TO_STRESS };
const MOST_EDITS = 50;
const keys = new Map<number, number>();
let lastKey_ms: number | null = null;

/** A key went down: what is typed next came from it. */
export function keyWentDown(event: Event): void {
  lastKey_ms = event.timeStamp;
}

/** Which edit the key belongs to; an edit without a key began now. */
export function editBegan(edit: number): void {
  keys.set(edit, lastKey_ms ?? performance.now());
  lastKey_ms = null;
  if (keys.size > MOST_EDITS) keys.delete(keys.keys().next().value ?? edit);
}

/** Calls back once the browser has painted what is on the page now. */
export function afterPaint(done: () => void): void {
  requestAnimationFrame(() => {
    const channel = new MessageChannel();
    channel.port1.onmessage = done;
    channel.port2.postMessage(null);
  });
}

/** Told when the answer to an edit is in the page. */
export function answerShown(edit: number, depth: Depth, first: boolean): void {
  const start = keys.get(edit);
  if (start === undefined) return;
  afterPaint(() => {
    if (first) performance.measure(FIRST_PICTURE, { start: 0, end: performance.now(), detail: { edit } });
    else performance.measure(MARKS[depth], { start, end: performance.now(), detail: { edit } });
  });
}
