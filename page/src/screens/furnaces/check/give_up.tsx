import { useState } from "preact/hooks";
import { ask } from "../../../api/client";
import { Button, Dialog, Field, Wrong } from "../../../parts";
import { go } from "../../../shell/navigation";
import { notify } from "../../../shell/notices";
import { pathOf } from "../../../shell/routes";
import { useWork } from "../../../state/use_work";
import { t } from "../../../words";

/** A check that will not be gone on with: it stays on record, says nothing of its furnace, and is listed as going on no more. */
export function GiveUp({ furnace, name, version }: { furnace: string; name: string; version: number }) {
  const [open, setOpen] = useState(false);
  const [reason, setReason] = useState("");
  const { busy, wrong, run } = useWork(() => {
    notify(t("check.give_up.done", { name }));
    go(pathOf("furnace", furnace));
  });
  const give = (event: Event) => {
    event.preventDefault();
    run(() => ask(`/api/checks/${encodeURIComponent(name)}/given-up`, { method: "POST", body: { from: version, reason } }));
  };
  return (
    <>
      <Button kind="quiet" onPress={() => setOpen(true)}>{t("check.give_up.ask")}</Button>
      {open ? (
        <Dialog title={t("check.give_up.title", { name })} onClose={() => setOpen(false)}>
          <form class="form" onSubmit={give}>
            <p>{t("check.give_up.means")}</p>
            <Field label={t("parts.reason")} help={t("parts.reason_help")} value={reason} required onInput={setReason} />
            <Wrong sentence={wrong} />
            <Button kind="primary" submit busy={busy} disabled={reason.trim() === ""}>{t("check.give_up.do")}</Button>
          </form>
        </Dialog>
      ) : null}
    </>
  );
}
