import { paths, type Form } from "../../../api/client";
import { Button, ButtonLink, DraftBar, Failed, Heading, Loading, Notice } from "../../../parts";
import { pathOf } from "../../../shell/routes";
import { useAnswer } from "../../../state/use_answer";
import { moment, number, t } from "../../../words";
import type { CheckAnswer, GuidedKind } from "./answer";
import { Answered } from "./answered";
import { GiveUp } from "./give_up";
import { MapStep } from "./map_step";
import { Outcome } from "./outcome";
import { readingsOf } from "./pending";
import { ProbeStep } from "./probe_step";
import { QuestionStep } from "./question_step";
import { pathOfCheck, useCheck, type CheckNow } from "./use_check";
import { WireStep } from "./wire_step";
import { kindWords } from "./words_of";

/** A check, one question a screen, till it is told what the furnace is. */
export function Guided({ furnace, kind, name }: { furnace: string; kind: GuidedKind; name: string | null }) {
  const now = useCheck(furnace, kind, name);
  const form = useAnswer<Form>(paths.form("check"));
  const { answer } = now;
  return (
    <div class="check">
      <p class="check-where"><a class="name-link" href={pathOf("furnace", furnace)}>{furnace}</a></p>
      <Heading title={`${kindWords(kind)}, ${furnace}`}>{kindWords(kind)}</Heading>
      {now.error ? <Failed error={now.error} again={now.again} /> : null}
      {answer === null && !now.error ? <Loading /> : null}
      {answer ? (
        <>
          {now.oldAt ? <Notice><p>{t("parts.old_answer", { at: moment(now.oldAt) })}</p></Notice> : null}
          <OthersGoingOn furnace={furnace} kind={kind} answer={answer} />
          <p class="step-of" role="status">{progress(answer)}</p>
          <Step key={readingsOf(answer)} now={now} answer={answer} form={form.answer} />
          <Refusal now={now} answer={answer} />
          {answer.remarks.map(({ sentence }) => <Notice key={sentence}><p>{sentence}</p></Notice>)}
          {answer.finished && answer.version !== null && now.back === null ? null : <Answered now={now} answered={answer.answered} form={form.answer} />}
          <Ways now={now} answer={answer} />
        </>
      ) : null}
    </div>
  );
}

/** Before one is begun: perhaps another of its kind waits to be gone on with. */
function OthersGoingOn({ furnace, kind, answer }: { furnace: string; kind: GuidedKind; answer: CheckAnswer }) {
  const other = answer.going_on[0];
  if (other === undefined || answer.version !== null || readingsOf(answer) > 0) return null;
  return (
    <Notice>
      <p>{t("check.other_goes_on")}</p>
      <ButtonLink to={pathOfCheck(furnace, kind, other)}>{t("check.go_on_with", { name: other })}</ButtonLink>
    </Notice>
  );
}

/** Where one stands, in words. */
function progress(answer: CheckAnswer): string {
  if (answer.level !== "going on") return t("check.step.outcome");
  const count = number(readingsOf(answer) + 1);
  if (answer.of === "chamber map") return t("check.step.tab", { count });
  if (answer.question && answer.question.key !== "compared") return t("check.step.before");
  return answer.of === "temperature" ? t("check.step.wire", { count }) : t("check.step.compared", { count });
}

function Step({ now, answer, form }: { now: CheckNow; answer: CheckAnswer; form: Form | null }) {
  if (answer.level !== "going on") return <Outcome now={now} check={answer} />;
  const { question } = answer;
  if (answer.of === "chamber map" && question) return <MapStep now={now} check={answer} question={question} />;
  if (answer.of === "thermocouple" && (question === null || question.key === "compared")) return <ProbeStep now={now} check={answer} question={question} />;
  if (answer.of === "temperature" && answer.next && question === null) return <WireStep now={now} check={answer} next={answer.next} form={form} />;
  return question ? <QuestionStep now={now} question={question} form={form} /> : null;
}

/** Steps that begin with keys: what stands in these shows that one typed instead. */
const INSTEAD: Readonly<Record<string, readonly string[]>> = { map: ["looked_like", "lightness"], "probe.correction": ["probe.correction"] };

function isAtField({ typed }: CheckNow, { level, question }: CheckAnswer): boolean {
  if (level !== "going on") return false;
  if (question === null) return typed("display") !== "";
  const instead = INSTEAD[question.key];
  return instead ? instead.some((key) => typed(key) !== "") : question.choices.length === 0;
}

/** What was refused stands at its field where there is one, else here. */
function Refusal({ now, answer }: { now: CheckNow; answer: CheckAnswer }) {
  if (now.wrong === null || isAtField(now, answer)) return null;
  return <Notice kind="wrong" title={t("parts.kept_nothing")}><p>{now.wrong}</p></Notice>;
}

function Ways({ now, answer }: { now: CheckNow; answer: CheckAnswer }) {
  const goesOn = answer.version !== null && !answer.finished && answer.level === "going on";
  return (
    <>
      <div class="check-actions">
        {now.back && answer.level === "going on" ? <Button onPress={now.back}>{t("parts.back")}</Button> : null}
        {now.takeBack ? <Button onPress={now.takeBack}>{t("check.take_back")}</Button> : null}
        {goesOn ? <GiveUp furnace={now.furnace} name={answer.check} version={answer.version ?? 0} /> : null}
      </div>
      {answer.version === null ? <DraftBar of={now.draft} onThrowAway={now.again} /> : null}
      {goesOn ? <p class="soft">{t("check.goes_on_as", { name: answer.check })}</p> : null}
    </>
  );
}
