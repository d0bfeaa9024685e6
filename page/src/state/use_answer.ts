// A reading question of a screen: loading, answer, error, or the last answer with its date while the server is away.
import { useEffect, useRef, useState } from "preact/hooks";
import { ask, inReach, isAborted, Unreachable } from "../api/client";
import { forgetAnswer, lastAnswer, rememberAnswer } from "./answers";
import { language, units } from "../words";
import { effect } from "@preact/signals";

export interface Answered<T> {
  answer: T | null;
  /** When the answer was given, UTC. */
  at: string | null;
  /** True while the answer shown is an earlier one and the server is away. */
  old: boolean;
  loading: boolean;
  error: Error | null;
  again: () => void;
}

interface Now<T> {
  question: string | null;
  answer: T | null;
  at: string | null;
  old: boolean;
  loading: boolean;
  error: Error | null;
}

const NOTHING = { answer: null, at: null, old: false, error: null };

/** Asks `question` (null: nothing yet) anew whenever it, the language or the units change, and when the server is in reach again. */
export function useAnswer<T>(question: string | null, kept = true): Answered<T> {
  const [now, set] = useState<Now<T>>({ question, ...NOTHING, loading: question !== null });
  const [turn, setTurn] = useState(0);
  const newest = useRef(0);
  const spoken = `${language()} ${units.value}`;
  useEffect(() => {
    if (question === null) {
      set({ question, ...NOTHING, loading: false });
      return;
    }
    const mine = (newest.current += 1);
    const stop = new AbortController();
    set((before) => (before.question === question ? { ...before, loading: true } : { question, ...NOTHING, loading: true }));
    const unless = (next: Now<T>) => mine === newest.current && set(next);
    ask<T>(question, { signal: stop.signal }).then(
      (answer) => {
        const at = new Date().toISOString();
        if (kept) rememberAnswer(question, answer, at);
        unless({ question, answer, at, old: false, loading: false, error: null });
      },
      (error: unknown) => {
        if (isAborted(error)) return;
        const last = error instanceof Unreachable && kept ? lastAnswer<T>(question) : null;
        if (last) unless({ question, answer: last.answer, at: last.at, old: true, loading: false, error: null });
        else {
          if (!(error instanceof Unreachable)) forgetAnswer(question);
          unless({ question, ...NOTHING, loading: false, error: error instanceof Error ? error : new Error(String(error)) });
        }
      },
    );
    return () => stop.abort();
  }, [question, turn, spoken]);
  useBackInReach(() => setTurn((before) => before + 1));
  return { ...(now.question === question ? now : { ...NOTHING, loading: question !== null }), again: () => setTurn((before) => before + 1) };
}

/** Calls back when the server answers again after it was away. */
export function useBackInReach(back: () => void): void {
  const call = useRef(back);
  call.current = back;
  useEffect(() => {
    let before = inReach.peek();
    return effect(() => {
      const now = inReach.value;
      if (now && !before) call.current();
      before = now;
    });
  }, []);
}
