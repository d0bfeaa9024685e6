// Mistakes told while a form is filled: asked a moment after the last key, of what was typed alone, and never in anybody's way.
import { useEffect, useState } from "preact/hooks";
import { documents, type Kind, type Mistake } from "../api/client";
import type { Values } from "../parts/form_values";

export const QUIET_MS = 500;

export interface Filling {
  kind: Kind;
  /** Of a new one; or of the kept one that changes. */
  name: string;
  /** The version that changes; 0: a new one. */
  from: number;
  set: Values;
  unset: readonly string[];
}

/** Those of what was typed: what is still to be filled in is no mistake yet. */
export function ofWhatIsTyped(mistakes: readonly Mistake[], set: Values): readonly Mistake[] {
  return mistakes.filter(({ key }) => key !== "" && (set[key] ?? "") !== "");
}

/** What the server says of the typed values, once the hands are still; the last answer stands until the next, at what it was said of. */
export function useMistakesWhileFilling({ kind, name, from, set, unset }: Filling): readonly Mistake[] {
  const [told, tell] = useState<{ of: Values; mistakes: readonly Mistake[] }>({ of: {}, mistakes: [] });
  const asked = JSON.stringify([kind, name, from, set, unset]);
  useEffect(() => {
    if (Object.keys(set).length === 0) return tell({ of: {}, mistakes: [] });
    let gone = false;
    const waiting = setTimeout(() => {
      const body = from > 0 ? { name, from, set, unset } : { name, set };
      // Whatever goes wrong on the way is told where one keeps.
      void documents.check(kind, body).then(
        ({ mistakes }) => !gone && tell({ of: set, mistakes: ofWhatIsTyped(mistakes, set) }),
        () => {},
      );
    }, QUIET_MS);
    return () => {
      gone = true;
      clearTimeout(waiting);
    };
  }, [asked]);
  return told.mistakes.filter(({ key }) => told.of[key] === set[key]);
}
