// A guided check while it goes on: what the server says to all that was answered, and the ways on from there.
import { useEffect, useRef, useState } from "preact/hooks";
import { ask, isAborted, Unreachable } from "../../../api/client";
import { go } from "../../../shell/navigation";
import { lastAnswer, rememberAnswer } from "../../../state/answers";
import type { Draft } from "../../../state/drafts";
import { useBackInReach } from "../../../state/use_answer";
import { useDraft } from "../../../state/use_draft";
import { useSteps } from "../../../state/use_work";
import { language, units } from "../../../words";
import type { Answers, CheckAnswer, CheckKind, Decision, GuidedKind, Reading } from "./answer";
import { answeredAnew, before, bodyOf, lastReading, NOTHING, type CheckBody, type Pending } from "./pending";

export interface CheckNow {
  furnace: string;
  kind: GuidedKind;
  answer: CheckAnswer | null;
  /** When the answer was given, where it is an earlier one and the server is away. */
  oldAt: string | null;
  error: Error | null;
  again: () => void;
  pending: Pending;
  draft: Draft<Pending>;
  busy: boolean;
  /** Why the last step was not taken, in the server's sentence. */
  wrong: string | null;
  typed: (key: string) => string;
  type: (key: string, text: string) => void;
  say: (answers: Answers) => void;
  /** Answers a question anew that was answered before with these; what follows from it is asked again where it no longer fits. */
  sayAnew: (before: Answers, answers: Answers) => Promise<boolean>;
  read: (reading: Reading) => void;
  thatWasAll: () => void;
  /** null where there is nothing to go back to. */
  back: (() => void) | null;
  takeBack: (() => void) | null;
  /** Takes one kept reading out, by its place in the list; null where none may go. */
  takeOut: ((at: number) => void) | null;
  keep: (more?: { answers?: Answers; decision?: Decision; reason?: string }) => Promise<boolean>;
}

export function placeOf(furnace: string, kind: CheckKind, name: string | null): string {
  return `${furnace}/check/${kind}${name === null ? "" : `/${name}`}`;
}

export function pathOfCheck(furnace: string, kind: CheckKind, name: string | null): string {
  return `/furnaces/${placeOf(furnace, kind, name).split("/").map(encodeURIComponent).join("/")}`;
}

interface Told {
  answer: CheckAnswer | null;
  oldAt: string | null;
  error: Error | null;
}

export function useCheck(furnace: string, kind: GuidedKind, name: string | null): CheckNow {
  const path = `/api/furnaces/${encodeURIComponent(furnace)}/checks/${kind}`;
  const place = placeOf(furnace, kind, name);
  const draft = useDraft<Pending>("furnaces", place, 0);
  const pending: Pending = { ...NOTHING, ...draft.values.value };
  const [told, setTold] = useState<Told>({ answer: null, oldAt: null, error: null });
  const { busy, wrong, step } = useSteps();
  const newest = useRef(0);
  const bodyNow = (of: Pending) => bodyOf(of, name, kind === "thermocouple");
  const post = (body: CheckBody) => ask<CheckAnswer>(path, { method: "POST", body });
  const show = (answer: CheckAnswer) => {
    newest.current += 1;
    setTold({ answer, oldAt: null, error: null });
    rememberAnswer(`check ${place}`, answer, new Date().toISOString());
  };

  const begin = () => {
    const mine = (newest.current += 1);
    const stop = new AbortController();
    ask<CheckAnswer>(path, { method: "POST", body: bodyNow({ ...NOTHING, ...draft.values.peek() }), signal: stop.signal }).then(
      (answer) => mine === newest.current && show(answer),
      (error: unknown) => {
        if (isAborted(error) || mine !== newest.current) return;
        const last = error instanceof Unreachable ? lastAnswer<CheckAnswer>(`check ${place}`) : null;
        setTold(last ? { answer: last.answer, oldAt: last.at, error: null } : { answer: null, oldAt: null, error: error instanceof Error ? error : new Error(String(error)) });
      },
    );
    return () => stop.abort();
  };
  useEffect(begin, [place, `${language()} ${units.value}`]);
  useBackInReach(begin);

  const kept = async (body: CheckBody & Record<string, unknown>): Promise<void> => {
    const from = told.answer?.version;
    const answer = await ask<CheckAnswer>(`${path}/kept`, { method: "POST", body: { ...body, ...(name !== null && from ? { from } : {}) } });
    draft.end();
    show(answer);
    if (name === null) go(pathOfCheck(furnace, kind, answer.check), true);
  };
  /** Readings of a check that goes on are kept at once: hours may lie between two of them. */
  const move = (next: Pending) =>
    step(async () => {
      const answer = await post(bodyNow(next));
      if (answer.level === "going on" && next.readings.length > 0) return kept({ ...bodyNow(next) });
      draft.change(next);
      show(answer);
    });
  const typedLess = (keys: readonly string[]) => Object.fromEntries(Object.entries(pending.typed).filter(([key]) => !keys.includes(key)));
  const earlier = before(pending);
  const last = name !== null && earlier === null && told.answer && !told.answer.finished ? lastReading(told.answer) : null;
  return {
    furnace, kind, ...told, pending, draft, busy, wrong,
    again: () => void begin(),
    typed: (key) => pending.typed[key] ?? "",
    type: (key, text) => draft.change({ ...pending, typed: { ...pending.typed, [key]: text } }),
    say: (answers) => void move({ ...pending, answers: [...pending.answers, answers], typed: typedLess(Object.keys(answers)) }),
    sayAnew: (earlierAnswers, answers) => move(answeredAnew(pending, earlierAnswers, answers)),
    read: (reading) => void move({ ...pending, readings: [...pending.readings, reading], typed: {} }),
    thatWasAll: () => void move({ ...pending, done: true }),
    back: earlier === null ? null : () => void move(earlier),
    takeBack: last === null ? null : () => void step(() => kept({ go_on: name ?? "", unset: [last] } as CheckBody & Record<string, unknown>)),
    takeOut: last === null ? null : (at) => void step(() => kept({ go_on: name ?? "", unset: [`${last.slice(0, last.indexOf("["))}[${at + 1}]`] } as CheckBody & Record<string, unknown>)),
    keep: ({ answers = {}, decision, reason } = {}) =>
      step(() => {
        const body = bodyNow(Object.keys(answers).length > 0 ? { ...pending, answers: [...pending.answers, answers] } : pending);
        return kept({ ...body, ...(decision ? { decision } : {}), ...(reason ? { reason } : {}) });
      }),
  };
}
