import type { Form } from "../../../api/client";
import { Button } from "../../../parts";
import { formField } from "../../../kept/form_field";
import { t } from "../../../words";
import { BigNumber } from "./big_number";
import type { CheckQuestion } from "./answer";
import { CertificateStep } from "./certificate_step";
import { exampleShown, unitsFor } from "./shown";
import { PurityOrMelting } from "./stated_melting";
import { StepHead } from "./step_head";
import type { CheckNow } from "./use_check";

/** One question: big keys where there are words to choose from, else one value; why it is asked stands under it. */
export function QuestionStep({ now, question, form, again = false }: { now: CheckNow; question: CheckQuestion; form: Form | null; again?: boolean }) {
  const id = again ? "why-again" : "why";
  return (
    <>
      {again ? <p class="large" id="question-again">{question.sentence}</p> : <StepHead of={question.key}>{question.sentence}</StepHead>}
      <p class="check-why" id={id}>{question.why.sentence}</p>
      {question.key === "probe.correction" ? (
        <CertificateStep now={now} />
      ) : question.choices.length > 0 ? (
        <Choices now={now} question={question} form={form} />
      ) : question.key === "wire.purity" && !again ? (
        <PurityOrMelting now={now}><Value now={now} question={question} /></PurityOrMelting>
      ) : (
        <Value key={question.key} now={now} question={question} />
      )}
    </>
  );
}

function Choices({ now, question, form }: { now: CheckNow; question: CheckQuestion; form: Form | null }) {
  const labels = new Map((form ? formField(form.fields, question.key)?.choices ?? [] : []).map((choice) => [choice.value, choice.label]));
  const label = (value: string) => (value === "yes" ? t("parts.yes") : value === "no" ? t("parts.no") : labels.get(value) ?? value);
  const before = now.typed(question.key);
  return (
    <div class="check-keys" role="group" aria-labelledby="question" aria-describedby="why">
      {question.choices.map((value) => (
        <button key={value} type="button" class="check-key" aria-pressed={before === "" ? undefined : before === value} disabled={now.busy} onClick={() => now.say({ [question.key]: value })}>
          {label(value)}
        </button>
      ))}
    </div>
  );
}

function Value({ now, question }: { now: CheckNow; question: CheckQuestion }) {
  const value = now.typed(question.key);
  const say = (event: Event) => {
    event.preventDefault();
    if (value.trim() !== "") now.say({ [question.key]: value });
  };
  return (
    <form class="check-form" onSubmit={say}>
      <BigNumber
        label={null}
        value={value}
        units={unitsFor(question.example)}
        unitsLabel={t("check.unit")}
        help={t("check.such_as", { example: exampleShown(question.example) })}
        mistake={now.wrong ?? undefined}
        busy={now.busy}
        onInput={(text) => now.type(question.key, text)}
      />
      <Button kind="primary" submit busy={now.busy} disabled={value.trim() === ""}>{t("parts.next")}</Button>
    </form>
  );
}
