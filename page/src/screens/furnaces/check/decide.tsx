import { useState } from "preact/hooks";
import { Button, Dialog, Field, Wrong } from "../../../parts";
import { notify } from "../../../shell/notices";
import { asTold, t } from "../../../words";
import type { Decision, OfDisplay, Way } from "./answer";
import type { CheckNow } from "./use_check";
import { decisionWords } from "./words_of";

/** What may be done about an error: both ways with what each does, side by side; below them leaving it and taking the furnace out of use. */
export function Decide({ now, check }: { now: CheckNow; check: OfDisplay }) {
  const [asked, setAsked] = useState<Decision | null>(null);
  if (check.decision !== null) return <p class="large">{t("check.decided", { decision: decisionWords(check.decision) })}</p>;
  return (
    <section aria-labelledby="decide">
      <h2 id="decide">{t("check.decide.title")}</h2>
      <div class="check-ways">
        {check.ways.map((way) => (
          <WayCard key={way.decision} way={way} onChoose={() => setAsked(way.decision)} />
        ))}
      </div>
      <div class="check-actions">
        <Button onPress={() => setAsked("left")}>{t("check.decide.leave")}</Button>
        <Button onPress={() => setAsked("out of use")}>{t("check.decide.out_of_use")}</Button>
      </div>
      {asked ? <DecideDialog now={now} decision={asked} keying={asked === "corrected" ? check.keying?.sentence ?? null : null} onClose={() => setAsked(null)} /> : null}
    </section>
  );
}

function WayCard({ way, onChoose }: { way: Way; onChoose: () => void }) {
  const title = way.decision === "corrected" ? t("check.way.correct") : t("check.way.allow");
  return (
    <section class="sheet check-way" aria-label={title}>
      <h3>{title}</h3>
      <ul>
        {way.sentences.map(({ sentence }) => (
          <li key={sentence}>{asTold(sentence)}</li>
        ))}
      </ul>
      <Button onPress={onChoose}>{way.decision === "corrected" ? t("check.way.do_correct") : t("check.way.do_allow")}</Button>
    </section>
  );
}

/** What one is about to do, as its button says it. */
const TO_DO = { corrected: "check.way.correct", "allowed for": "check.way.allow", left: "check.decide.leave", "out of use": "check.decide.out_of_use" } as const;

function DecideDialog({ now, decision, keying, onClose }: { now: CheckNow; decision: Decision; keying: string | null; onClose: () => void }) {
  const [reason, setReason] = useState("");
  const keep = (event: Event) => {
    event.preventDefault();
    void now.keep({ decision, reason }).then((kept) => {
      if (!kept) return;
      notify(t("check.decide.kept", { decision: decisionWords(decision) }));
      onClose();
    });
  };
  return (
    <Dialog title={t(TO_DO[decision])} onClose={onClose}>
      <form class="form" onSubmit={keep}>
        {keying ? <p class="large">{asTold(keying)}</p> : null}
        {decision === "corrected" ? <p>{t("check.decide.corrected_means")}</p> : null}
        <Field label={t("parts.reason")} help={t("parts.reason_help")} value={reason} onInput={setReason} />
        <Wrong sentence={now.wrong} />
        <Button kind="primary" submit busy={now.busy}>{decision === "corrected" ? t("check.decide.is_keyed") : t("check.decide.keep")}</Button>
      </form>
    </Dialog>
  );
}
