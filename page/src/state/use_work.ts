import { useState } from "preact/hooks";
import { Unreachable } from "../api/client";
import { t } from "../words";

/** One writing call of a dialog: busy while it runs, the server's sentence where it is refused; done is called only once it is kept. */
export function useWork(done: () => void): { busy: boolean; wrong: string | null; run: (work: () => Promise<unknown>) => void } {
  const [busy, setBusy] = useState(false);
  const [wrong, setWrong] = useState<string | null>(null);
  const run = (work: () => Promise<unknown>) => {
    if (busy) return;
    setBusy(true);
    setWrong(null);
    work().then(
      () => {
        setBusy(false);
        done();
      },
      (error: unknown) => {
        setBusy(false);
        setWrong(error instanceof Unreachable ? t("parts.offline") : error instanceof Error ? error.message : String(error));
      },
    );
  };
  return { busy, wrong, run };
}
