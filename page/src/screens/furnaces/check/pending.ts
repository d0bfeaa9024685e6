// What was answered and read in a check and is not kept in the lab yet; and the request it makes.
import type { Answers, CheckAnswer, Reading } from "./answer";

export interface Pending {
  /** A step each, in the order they were asked. */
  answers: readonly Answers[];
  readings: readonly Reading[];
  /** Of a comparison: that was all. */
  done: boolean;
  /** Kept answers that go, since their question was answered anew in another way. */
  unset: readonly string[];
  /** What stands in a field and was not answered yet, or was taken back. */
  typed: Readonly<Record<string, string>>;
}

export const NOTHING: Pending = { answers: [], readings: [], done: false, unset: [], typed: {} };

export interface CheckBody {
  go_on?: string;
  answers?: Answers;
  unset?: string[];
  trials?: unknown[];
  compared?: unknown[];
  tabs?: unknown[];
  more_follows?: true;
}

/** The request of what is pending; `name` is the kept check it goes on from. */
export function bodyOf(pending: Pending, name: string | null, comparing: boolean): CheckBody {
  const body: CheckBody = {};
  if (name !== null) body.go_on = name;
  const answers: Answers = Object.assign({}, ...pending.answers);
  if (Object.keys(answers).length > 0) body.answers = answers;
  if (name !== null && pending.unset.length > 0) body.unset = [...pending.unset];
  for (const { list, value } of pending.readings) (body[list] ??= []).push(value);
  if (comparing && !pending.done) body.more_follows = true;
  return body;
}

/** A question that was answered before, answered anew: in its place among what is pending, and what it was kept as goes. */
export function answeredAnew(pending: Pending, before: Answers, answers: Answers): Pending {
  const was = Object.keys(before);
  const isIt = (step: Answers) => Object.keys(step).some((key) => was.includes(key));
  const gone = was.filter((key) => !(key in answers));
  const stands = pending.answers.some(isIt);
  return {
    ...pending,
    answers: stands ? pending.answers.map((step) => (isIt(step) ? answers : step)) : [...pending.answers, answers],
    unset: [...pending.unset.filter((key) => !was.includes(key) && !(key in answers)), ...gone],
    typed: {},
  };
}

/** The last step taken back, and what was answered there left in its field; null where nothing is pending. */
export function before(pending: Pending): Pending | null {
  if (pending.done) return { ...pending, done: false };
  if (pending.readings.length > 0) return { ...pending, readings: pending.readings.slice(0, -1) };
  const last = pending.answers.at(-1);
  return last === undefined ? null : { ...pending, answers: pending.answers.slice(0, -1), typed: { ...pending.typed, ...last } };
}

/** How many wires, comparisons or tabs an answer counts. */
export function readingsOf(answer: CheckAnswer): number {
  return answer.of === "temperature" ? answer.trials.length : answer.found.length;
}

/** The key of the last reading of a kept check, by which it is taken back; null where there is none. */
export function lastReading(answer: CheckAnswer): string | null {
  const count = readingsOf(answer);
  const list = { temperature: "trials", thermocouple: "compared", "chamber map": "map" }[answer.of];
  return count > 0 ? `${list}[${count}]` : null;
}
