import { useState } from "preact/hooks";
import { ask, paths, type Form } from "../../api/client";
import { AnswerView, Button, Choice, Dialog, Field, Notice } from "../../parts";
import { asked, go } from "../../shell/navigation";
import { notify } from "../../shell/notices";
import { PasswordGate } from "../../shell/password_gate";
import { useAnswer } from "../../state/use_answer";
import { t } from "../../words";

/** Shown anew after something was kept: the address is the same, what stands there is not. */
function shownAnew(name: string): void {
  go(`/records/deviation/${encodeURIComponent(name)}?after=${Number(asked.peek().get("after") ?? "0") + 1}`, true);
}

function useSending(name: string, done: string, onClose: () => void) {
  const [refused, setRefused] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const send = async (path: string, body: Record<string, string>) => {
    setBusy(true);
    setRefused(null);
    try {
      await ask(`/api/deviations/${encodeURIComponent(name)}/${path}`, { method: "PUT", body });
      notify(done);
      onClose();
      shownAnew(name);
    } catch (error) {
      setRefused(error instanceof Error ? error.message : String(error));
    } finally {
      setBusy(false);
    }
  };
  return { refused, busy, send };
}

export function DecideButton({ name, kind }: { name: string; kind: "primary" | "plain" }) {
  const [open, setOpen] = useState(false);
  return (
    <PasswordGate>
      {(gate) => (
        <>
          <Button kind={kind} onPress={() => gate(() => setOpen(true))}>{t("records.deviation.decide")}</Button>
          {open ? <DecideDialog name={name} onClose={() => setOpen(false)} /> : null}
        </>
      )}
    </PasswordGate>
  );
}

function DecideDialog({ name, onClose }: { name: string; onClose: () => void }) {
  const form = useAnswer<Form>(paths.form("deviation"));
  const [decision, setDecision] = useState("");
  const [reason, setReason] = useState("");
  const [trial, setTrial] = useState("");
  const { refused, busy, send } = useSending(name, t("records.deviation.now_decided"), onClose);
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

export function ReleaseButton({ name }: { name: string }) {
  const [open, setOpen] = useState(false);
  return (
    <PasswordGate>
      {(gate) => (
        <>
          <Button kind="primary" onPress={() => gate(() => setOpen(true))}>{t("records.deviation.release")}</Button>
          {open ? <ReleaseDialog name={name} onClose={() => setOpen(false)} /> : null}
        </>
      )}
    </PasswordGate>
  );
}

function ReleaseDialog({ name, onClose }: { name: string; onClose: () => void }) {
  const [reason, setReason] = useState("");
  const { refused, busy, send } = useSending(name, t("records.deviation.now_released"), onClose);
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
