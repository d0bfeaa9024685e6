import { useState } from "preact/hooks";
import { ask, paths, type Form } from "../../api/client";
import { AnswerView, Button, Choice, Dialog, Field, Notice } from "../../parts";
import { notify } from "../../shell/notices";
import { PasswordGate } from "../../shell/password_gate";
import { useAnswer } from "../../state/use_answer";
import { t } from "../../words";

function useSending(name: string, said: string, done: () => void) {
  const [refused, setRefused] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const send = async (path: string, body: Record<string, string>) => {
    setBusy(true);
    setRefused(null);
    try {
      await ask(`/api/deviations/${encodeURIComponent(name)}/${path}`, { method: "PUT", body });
      notify(said);
      done();
    } catch (error) {
      setRefused(error instanceof Error ? error.message : String(error));
    } finally {
      setBusy(false);
    }
  };
  return { refused, busy, send };
}

export function DecideButton({ name, kind, onDone }: { name: string; kind: "primary" | "plain"; onDone: () => void }) {
  const [open, setOpen] = useState(false);
  return (
    <PasswordGate>
      {(gate) => (
        <>
          <Button kind={kind} onPress={() => gate(() => setOpen(true))}>{t("records.deviation.decide")}</Button>
          {open ? <DecideDialog name={name} onClose={() => setOpen(false)} onDone={onDone} /> : null}
        </>
      )}
    </PasswordGate>
  );
}

interface Asking {
  name: string;
  onClose: () => void;
  onDone: () => void;
}

function DecideDialog({ name, onClose, onDone }: Asking) {
  const form = useAnswer<Form>(paths.form("deviation"));
  const [decision, setDecision] = useState("");
  const [reason, setReason] = useState("");
  const [trial, setTrial] = useState("");
  const { refused, busy, send } = useSending(name, t("records.deviation.now_decided"), () => {
    onClose();
    onDone();
  });
  return (
    <Dialog title={t("records.deviation.decide_title")} onClose={onClose}>
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          void send("decision", { decision, reason, ...(trial ? { trial } : {}) });
        }}
      >
        <AnswerView of={form}>
          {({ fields }) => <Choice label={t("records.deviation.decision")} options={fields.find((field) => field.key === "decision")?.choices ?? []} value={decision} onChoose={setDecision} required />}
        </AnswerView>
        <Field label={t("parts.reason")} help={t("parts.reason_help")} value={reason} onInput={setReason} required />
        <Field label={t("records.deviation.trial")} help={t("records.deviation.trial_help")} value={trial} onInput={setTrial} />
        {refused ? <Notice kind="wrong" title={t("parts.kept_nothing")}><p>{refused}</p></Notice> : null}
        <Button kind="primary" submit busy={busy} disabled={decision === "" || reason.trim() === ""}>{t("records.deviation.decide")}</Button>
      </form>
    </Dialog>
  );
}

export function ReleaseButton({ name, onDone }: { name: string; onDone: () => void }) {
  const [open, setOpen] = useState(false);
  return (
    <PasswordGate>
      {(gate) => (
        <>
          <Button kind="primary" onPress={() => gate(() => setOpen(true))}>{t("records.deviation.release")}</Button>
          {open ? <ReleaseDialog name={name} onClose={() => setOpen(false)} onDone={onDone} /> : null}
        </>
      )}
    </PasswordGate>
  );
}

function ReleaseDialog({ name, onClose, onDone }: Asking) {
  const [reason, setReason] = useState("");
  const { refused, busy, send } = useSending(name, t("records.deviation.now_released"), () => {
    onClose();
    onDone();
  });
  return (
    <Dialog title={t("records.deviation.release_title")} onClose={onClose}>
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          void send("release", { reason });
        }}
      >
        <p>{t("records.deviation.release_means")}</p>
        <Field label={t("parts.reason")} help={t("parts.reason_help")} value={reason} onInput={setReason} required />
        {refused ? <Notice kind="wrong" title={t("parts.kept_nothing")}><p>{refused}</p></Notice> : null}
        <Button kind="primary" submit busy={busy} disabled={reason.trim() === ""}>{t("records.deviation.release")}</Button>
      </form>
    </Dialog>
  );
}
