import { useState } from "preact/hooks";
import { documents, paths, Refused, type KeptDocument } from "../../api/client";
import { AnswerView, Button, Conflict, Dialog, DraftBar, Field, Wrong } from "../../parts";
import { notify } from "../../shell/notices";
import { useAnswer } from "../../state/use_answer";
import { useDraft } from "../../state/use_draft";
import { t } from "../../words";
import { useWork } from "../../state/use_work";

interface NextStep {
  name: string;
  onClose: () => void;
  onKept: () => void;
}

/** What comes next for a case, in a person's own words; kept as the case's next version. */
export function NextStepDialog({ name, onClose, onKept }: NextStep) {
  const kept = useAnswer<KeptDocument>(paths.document("case", name));
  return (
    <AnswerView of={kept}>{(document) => (document.version === 0 ? null : <Change key={document.version} document={document} onClose={onClose} onKept={onKept} again={kept.again} />)}</AnswerView>
  );
}

function Change({ document, onClose, onKept, again }: { document: KeptDocument; onClose: () => void; onKept: () => void; again: () => void }) {
  const { name, version } = document;
  const draft = useDraft<string>("case-step", name, 0);
  const before = document.values.find(({ key }) => key === "next_step")?.text ?? "";
  const step = draft.values.value ?? before;
  const [conflict, setConflict] = useState<{ from: number; newest: number } | null>(null);
  const { busy, wrong, run } = useWork(() => {
    draft.end();
    notify(t("today.cases.step_kept", { name }));
    onClose();
    onKept();
  });
  const keep = () =>
    documents
      .change("case", name, { from: version, ...(step.trim() ? { set: { next_step: step.trim() } } : { unset: ["next_step"] }), reason: t("today.cases.step_reason") })
      .catch((error: unknown) => {
        if (error instanceof Refused && error.conflict) setConflict(error.conflict);
        throw error;
      });
  const submit = (event: Event) => {
    event.preventDefault();
    if (step.trim() === before) onClose();
    else run(keep);
  };
  if (conflict) {
    return (
      <Conflict
        kind="case"
        name={name}
        {...conflict}
        mine={[`${t("today.cases.step_label")}: ${before || "–"} → ${step || "–"}`]}
        onKeepMine={again}
        onTakeTheirs={() => {
          draft.end();
          again();
        }}
        onClose={onClose}
      />
    );
  }
  return (
    <Dialog title={t("today.cases.step_title", { name })} onClose={onClose}>
      <DraftBar of={draft} />
      <form class="form" onSubmit={submit}>
        <Field label={t("today.cases.step_label")} help={t("today.cases.step_help")} value={step} onInput={(value) => draft.change(value)} />
        <Wrong sentence={wrong} />
        <Button kind="primary" submit busy={busy}>
          {t("parts.keep")}
        </Button>
      </form>
    </Dialog>
  );
}
