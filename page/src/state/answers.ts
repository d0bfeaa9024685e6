// The last answer of each reading question, dated, so that a lost network leaves something to look at.
import { forget, keep, kept, keysOf } from "./kept";
import { place } from "./drafts";

export interface LastAnswer<T> {
  answer: T;
  /** When the server gave it, UTC. */
  at: string;
}

const BIGGEST = 200_000;
const MOST = 60;

function keyOf(question: string): string {
  return `answer|${place.value}|${question}`;
}

export function lastAnswer<T>(question: string): LastAnswer<T> | null {
  return kept<LastAnswer<T>>(keyOf(question));
}

export function forgetAnswer(question: string): void {
  forget(keyOf(question));
}

/** Answers that are too big are not kept; the oldest make room for new ones. */
export function rememberAnswer(question: string, answer: unknown, at: string): void {
  if (JSON.stringify(answer).length > BIGGEST) return;
  const stored = { answer, at } satisfies LastAnswer<unknown>;
  if (!keep(keyOf(question), stored)) {
    dropOldest(MOST / 2);
    keep(keyOf(question), stored);
  }
  dropOldest(MOST);
}

function dropOldest(most: number): void {
  const keys = keysOf("answer|");
  if (keys.length <= most) return;
  const dated = keys.map((key) => ({ key, at: kept<LastAnswer<unknown>>(key)?.at ?? "" })).sort((a, b) => a.at.localeCompare(b.at));
  dated.slice(0, keys.length - most).forEach(({ key }) => forget(key));
}

/** When somebody signs out or another person takes over, nothing of the lab stays behind on the device; drafts do. */
export function forgetAnswers(): void {
  keysOf("answer|").forEach((key) => forget(key));
}
