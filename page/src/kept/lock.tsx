import { useState } from "preact/hooks";
import { documents, type Kind, type KeptDocument } from "../api/client";
import { Button, Dialog, Field, Notice } from "../parts";
import { notify } from "../shell/notices";
import { t } from "../words";

/** Locks the newest version against change, or lets it be changed again; either way with a reason. */
export function LockButton({ document, onDone }: { document: KeptDocument; onDone: () => void }) {
  const [asking, setAsking] = useState(false);
  const locked = document.locked_because !== null;
  return (
    <>
      <Button onPress={() => setAsking(true)}>{locked ? t("kept.unlock") : t("kept.lock")}</Button>
      {asking ? <LockDialog document={document} lock={!locked} onClose={() => setAsking(false)} onDone={onDone} /> : null}
    </>
  );
}

function LockDialog({ document, lock, onClose, onDone }: { document: KeptDocument; lock: boolean; onClose: () => void; onDone: () => void }) {
  const [reason, setReason] = useState("");
  const [mistake, setMistake] = useState<string | undefined>();
  const [busy, setBusy] = useState(false);
  const done = async () => {
    if (reason.trim() === "") return setMistake(t("kept.reason_missing"));
    setBusy(true);
    try {
      await documents.lock(document.kind as Kind, document.name, lock, reason);
      notify(t(lock ? "kept.now_locked" : "kept.now_unlocked", { name: document.name }));
      onClose();
      onDone();
    } catch (error) {
      setMistake(error instanceof Error ? error.message : String(error));
    } finally {
      setBusy(false);
    }
  };
  return (
    <Dialog title={lock ? t("kept.lock_title", { name: document.name }) : t("kept.unlock_title", { name: document.name })} onClose={onClose}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void done();
        }}
      >
        {lock ? <Notice><p>{t("kept.lock_means")}</p></Notice> : null}
        <Field label={t("parts.reason")} help={t("parts.reason_help")} value={reason} onInput={setReason} mistake={mistake} required />
        <div class="actions">
          <Button kind="primary" submit busy={busy}>{lock ? t("kept.lock") : t("kept.unlock")}</Button>
          <Button kind="quiet" onPress={onClose}>{t("parts.cancel")}</Button>
        </div>
      </form>
    </Dialog>
  );
}
