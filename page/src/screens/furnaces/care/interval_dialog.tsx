import { useState } from "preact/hooks";
import { BigChoice, Button, Dialog, Field, Wrong } from "../../../parts";
import { notify } from "../../../shell/notices";
import { maySetUp } from "../../../state/session";
import { useWork } from "../../../state/use_work";
import { t } from "../../../words";
import { setInterval, setIntervalOfEvery, type DueAnswer, type IntervalBody, type Work } from "./answer";
import { isSet, workWords } from "./words_of";

type Whose = "maker" | "lab" | "every";

export interface IntervalAsked {
  furnace: string;
  version: number;
  /** Of the lab's own document; null: none stands yet. */
  labVersion: number | null;
  /** null: a work of the lab's own, still to be named. */
  work: Work | null;
  onSet: (answer: DueAnswer) => void;
  onClose: () => void;
}

const text = (count: number | null | undefined) => (count === null || count === undefined ? "" : String(count));

/** How often a work is due, and whose word that is. */
export function IntervalDialog({ furnace, version, labVersion, work, onSet, onClose }: IntervalAsked) {
  const [name, setName] = useState(work?.work ?? "");
  const [days, setDays] = useState(text(work?.every_days));
  const [firings, setFirings] = useState(text(work?.after_firings));
  const [hours, setHours] = useState(text(work?.after_hours));
  const [whose, setWhose] = useState<Whose>(whoseOf(work));
  const [stated, setStated] = useState(work?.stated_in ?? "");
  const { busy, wrong, run } = useWork(onClose);
  const daysAlone = work?.work === "start of the day";
  const send = (body: IntervalBody, to: Whose) =>
    run(async () => {
      const from = to === "every" ? labVersion : version;
      const whole = { ...body, ...(from === null ? {} : { from }) };
      onSet(to === "every" ? await setIntervalOfEvery(whole) : await setInterval(furnace, whole));
      notify(t("care.interval.kept", { work: workWords(body.work) }));
    });
  const keep = (event: Event) => {
    event.preventDefault();
    const counts = { every_days: days.trim(), ...(daysAlone ? {} : { after_firings: firings.trim(), after_hours: hours.trim() }) };
    const by: Partial<IntervalBody> = whose === "maker" ? { by: "furnace maker", stated_in: stated.trim() } : {};
    send({ work: name.trim(), ...counts, ...by }, whose);
  };
  const options = [
    { value: "lab", label: t("care.interval.lab") },
    ...(maySetUp.value ? [{ value: "every", label: t("care.interval.every") }] : []),
    { value: "maker", label: t("care.interval.maker") },
  ];
  return (
    <Dialog title={work ? t("care.interval.title", { work: workWords(work.work) }) : t("care.interval.own")} onClose={onClose}>
      <form class="form" onSubmit={keep}>
        {work ? null : <Field label={t("care.interval.name")} help={t("care.interval.name_help")} value={name} onInput={setName} required />}
        <p class="field-help">{daysAlone ? t("care.interval.days_alone") : t("care.interval.whichever")}</p>
        <div class="care-counts">
          <Field label={t("care.interval.days")} value={days} onInput={setDays} />
          {daysAlone ? null : <Field label={t("care.interval.firings")} value={firings} onInput={setFirings} />}
          {daysAlone ? null : <Field label={t("care.interval.hours")} value={hours} onInput={setHours} />}
        </div>
        <BigChoice label={t("care.interval.whose")} options={options} value={whose} onChoose={(value) => setWhose(value as Whose)} />
        {whose === "maker" ? <Field label={t("care.interval.stated_in")} help={t("care.interval.stated_help")} value={stated} onInput={setStated} required /> : null}
        <Wrong sentence={wrong} />
        <div class="actions actions-row">
          <Button kind="primary" submit busy={busy} disabled={name.trim() === ""}>{t("care.interval.keep")}</Button>
          {work && isSet(work) ? <Button busy={busy} onPress={() => send({ work: work.work, as_before: true }, whoseOf(work))}>{t("care.interval.as_before")}</Button> : null}
        </div>
      </form>
    </Dialog>
  );
}

function whoseOf(work: Work | null): Whose {
  if (work?.set_by === "furnace maker's instruction") return "maker";
  return work?.set_by === "the lab, for every furnace" ? "every" : "lab";
}
