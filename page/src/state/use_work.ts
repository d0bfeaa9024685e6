import { useState } from "preact/hooks";
import { Unreachable } from "../api/client";
import { t } from "../words";

export interface Steps {
  busy: boolean;
  /** Why the last one was not taken, in the server's sentence. */
  wrong: string | null;
  /** True where it was taken. */
  step: (work: () => Promise<unknown>) => Promise<boolean>;
}

function sentenceOf(error: unknown): string {
  return error instanceof Unreachable ? t("parts.offline") : error instanceof Error ? error.message : String(error);
}

/** Calls one at a time: a second one while one is under way does nothing. */
export function useSteps(): Steps {
  const [busy, setBusy] = useState(false);
  const [wrong, setWrong] = useState<string | null>(null);
  const step = async (work: () => Promise<unknown>): Promise<boolean> => {
    if (busy) return false;
    setBusy(true);
    setWrong(null);
    try {
      await work();
      return true;
    } catch (error) {
      setWrong(sentenceOf(error));
      return false;
    } finally {
      setBusy(false);
    }
  };
  return { busy, wrong, step };
}

/** One writing call of a dialog: busy while it runs, the server's sentence where it is refused; done is called only once it is kept. */
export function useWork(done: () => void): { busy: boolean; wrong: string | null; run: (work: () => Promise<unknown>) => void } {
  const { busy, wrong, step } = useSteps();
  const run = (work: () => Promise<unknown>) => void step(work).then((taken) => taken && done());
  return { busy, wrong, run };
}
