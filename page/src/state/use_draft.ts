import { useMemo } from "preact/hooks";
import { draft, type Draft } from "./drafts";

/** The draft of a document on a screen, the same as long as name and version are. */
export function useDraft<T>(screen: string, document: string, version: number): Draft<T> {
  return useMemo(() => draft<T>({ screen, document, version }), [screen, document, version]);
}
