import { useState } from "preact/hooks";
import { Button, Dialog, Field, Wrong } from "../../../parts";
import { notify } from "../../../shell/notices";
import { useWork } from "../../../state/use_work";
import { t } from "../../../words";
import { markDone, type DueAnswer } from "./answer";
import { workWords } from "./words_of";

/** A work that no check and no firing tells of, marked as done by whoever is signed in. */
export function DoneDialog({ furnace, version, work, today, onDone, onClose }: { furnace: string; version: number; work: string; today: string; onDone: (answer: DueAnswer) => void; onClose: () => void }) {
  const [on, setOn] = useState(today);
  const { busy, wrong, run } = useWork(onClose);
  const keep = (event: Event) => {
    event.preventDefault();
    run(async () => {
      onDone(await markDone(furnace, { work, on, from: version }));
      notify(t("care.done.kept", { work: workWords(work) }));
    });
  };
  return (
    <Dialog title={t("care.done.title", { work: workWords(work) })} onClose={onClose}>
      <form class="form" onSubmit={keep}>
        <p>{t("care.done.means")}</p>
        <Field label={t("care.done.on")} kind="date" value={on} onInput={setOn} mistake={wrong ?? undefined} />
        {on === "" ? <Wrong sentence={wrong} /> : null}
        <Button kind="primary" submit busy={busy} disabled={on === ""}>{t("care.done.keep")}</Button>
      </form>
    </Dialog>
  );
}
