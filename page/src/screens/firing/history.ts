// What was typed, step by step, so that it can be taken back and done again.

export interface History<T> {
  readonly now: T;
  readonly past: readonly T[];
  readonly future: readonly T[];
  /** The field typed in last: what is typed into it without a pause is one step. */
  readonly field: string | null;
  readonly typed_ms: number;
}

const PAUSE_MS = 1500;
const MOST_STEPS = 200;

export function began<T>(now: T): History<T> {
  return { now, past: [], future: [], field: null, typed_ms: -Infinity };
}

/** The next state, typed into `field` (null: a step of its own, such as a stage added). */
export function typed<T>(history: History<T>, now: T, field: string | null, at_ms: number): History<T> {
  const goesOn = field !== null && field === history.field && at_ms - history.typed_ms < PAUSE_MS && history.past.length > 0;
  const past = goesOn ? history.past : [...history.past, history.now].slice(-MOST_STEPS);
  return { now, past, future: [], field, typed_ms: at_ms };
}

export function undone<T>(history: History<T>): History<T> {
  const before = history.past.at(-1);
  if (before === undefined) return history;
  return { now: before, past: history.past.slice(0, -1), future: [history.now, ...history.future], field: null, typed_ms: -Infinity };
}

export function redone<T>(history: History<T>): History<T> {
  const next = history.future[0];
  if (next === undefined) return history;
  return { now: next, past: [...history.past, history.now], future: history.future.slice(1), field: null, typed_ms: -Infinity };
}
