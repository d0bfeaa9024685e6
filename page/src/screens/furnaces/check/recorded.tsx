import { useEffect, useState } from "preact/hooks";
import { ask, paths, type Form } from "../../../api/client";
import { DraftBar, Failed, Heading, Loading, Notice, Button } from "../../../parts";
import { go } from "../../../shell/navigation";
import { pathOf } from "../../../shell/routes";
import { useAnswer } from "../../../state/use_answer";
import { useDraft } from "../../../state/use_draft";
import { useSteps } from "../../../state/use_work";
import { language, number, t, units } from "../../../words";
import type { RecordAnswer, RecordKind } from "./answer";
import { RecordOutcome } from "./record_outcome";
import { RecordQuestion } from "./record_question";
import { hasReadings, NOTHING_RECORDED, recordBody, STEPS, type Recorded as Told } from "./record_steps";
import { pathOfCheck, placeOf } from "./use_check";
import { kindWords } from "./words_of";

/** A check from a record: what was asked for, the readings, then what they tell. */
export function Recorded({ furnace, kind, name }: { furnace: string; kind: RecordKind; name: string | null }) {
  const path = `/api/furnaces/${encodeURIComponent(furnace)}/checks/${kind}`;
  const draft = useDraft<Told>("furnaces", placeOf(furnace, kind, name), 0);
  const told = draft.values.value ?? NOTHING_RECORDED;
  const form = useAnswer<Form>(paths.form("check"));
  const [answer, setAnswer] = useState<RecordAnswer | null>(null);
  const [error, setError] = useState<Error | null>(null);
  const { busy, wrong, step } = useSteps();
  const asked = (of: Told) => ask<RecordAnswer>(path, { method: "POST", body: recordBody(of, kind, name) });
  const begin = () => {
    setError(null);
    if (name === null && !hasReadings(draft.values.peek() ?? NOTHING_RECORDED)) return;
    asked(draft.values.peek() ?? NOTHING_RECORDED).then(setAnswer, setError);
  };
  useEffect(begin, [path, `${language()} ${units.value}`]);
  const steps = STEPS[kind];
  const now = steps[told.done];
  const to = (next: Told) =>
    void step(async () => {
      // Without a reading nothing can be judged yet.
      if (hasReadings(next)) setAnswer(await asked(next));
      draft.change(next);
    });
  const type = (key: string, text: string) => draft.change({ ...told, typed: { ...told.typed, [key]: text } });
  const back = told.done > 0 ? () => draft.change({ ...told, done: told.done - 1, cannotBeShut: false }) : null;
  const keep = ({ answers }: { answers: Told["answers"] }) =>
    step(async () => {
      const kept = await ask<RecordAnswer>(`${path}/kept`, { method: "POST", body: recordBody({ ...told, answers: { ...told.answers, ...answers } }, kind, name) });
      draft.end();
      go(pathOfCheck(furnace, kind, kept.check), true);
    });
  const shown = name !== null || !now;
  return (
    <div class="check">
      <p class="check-where"><a class="name-link" href={pathOf("furnace", furnace)}>{furnace}</a></p>
      <Heading title={`${kindWords(kind)}, ${furnace}`}>{kindWords(kind)}</Heading>
      {error ? <Failed error={error} again={begin} /> : null}
      {shown && answer === null && !error ? <Loading /> : null}
      {!error ? (
        <>
          <p class="step-of" role="status">{shown ? t("check.step.outcome") : t("check.step.question", { count: number(told.done + 1), of: number(steps.length) })}</p>
          {shown && answer ? (
            <RecordOutcome furnace={furnace} check={answer} toKeep={name === null ? { busy, type, back, keep, typed: (key) => told.typed[key] ?? "" } : null} />
          ) : null}
          {shown || !now ? null : (
            <RecordQuestion key={told.done} step={now} told={told} form={form.answer} busy={busy} wrong={wrong} type={type} say={(next) => to({ ...next, done: told.done + 1 })} />
          )}
          {wrong && (shown || (now && now.of === "choice")) ? <Notice kind="wrong" title={t("parts.kept_nothing")}><p>{wrong}</p></Notice> : null}
          {!shown && back ? <div class="check-actions"><Button onPress={back}>{t("parts.back")}</Button></div> : null}
          {name === null ? <DraftBar of={draft} onThrowAway={begin} /> : null}
        </>
      ) : null}
    </div>
  );
}
