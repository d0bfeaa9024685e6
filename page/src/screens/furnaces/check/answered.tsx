import { useState } from "preact/hooks";
import type { Form } from "../../../api/client";
import { formField } from "../../../kept/form_field";
import { Button, Dialog, Wrong } from "../../../parts";
import { asPeopleWrite, t } from "../../../words";
import type { AnsweredQuestion, Answers } from "./answer";
import { QuestionStep } from "./question_step";
import type { CheckNow } from "./use_check";

/** What was answered so far; each may be answered anew, and what follows is asked again only where it no longer fits. */
export function Answered({ now, answered, form }: { now: CheckNow; answered: readonly AnsweredQuestion[]; form: Form | null }) {
  const [key, setKey] = useState<string | null>(null);
  const open = answered.find((one) => one.key === key) ?? null;
  if (answered.length === 0) return null;
  return (
    <details class="fold">
      <summary>{t("check.answered.title")}</summary>
      <ul class="check-answered">
        {answered.map((one) => (
          <li key={one.key}>
            <span>{one.sentence}</span>
            <strong>{valueWords(one, form)}</strong>
            <Button label={t("check.answered.anew_of", { question: one.sentence })} onPress={() => setKey(one.key)}>{t("check.answered.anew")}</Button>
          </li>
        ))}
      </ul>
      {open ? <Anew now={now} question={open} form={form} onClose={() => setKey(null)} /> : null}
    </details>
  );
}

/** The question once more, with what was answered in its field. */
function Anew({ now, question, form, onClose }: { now: CheckNow; question: AnsweredQuestion; form: Form | null; onClose: () => void }) {
  const [typed, setTyped] = useState<Answers>(question.values);
  const [said, setSaid] = useState(false);
  const here: CheckNow = {
    ...now,
    wrong: said ? now.wrong : null,
    typed: (key) => typed[key] ?? "",
    type: (key, text) => setTyped({ ...typed, [key]: text }),
    say: (answers) => {
      setSaid(true);
      void now.sayAnew(question.values, answers).then((taken) => taken && onClose());
    },
  };
  return (
    <Dialog title={t("check.answered.anew_title")} onClose={onClose}>
      <QuestionStep now={here} question={question} form={form} again />
      {said && question.choices.length > 0 ? <Wrong sentence={now.wrong} /> : null}
    </Dialog>
  );
}

/** A choice as its form calls it, else the values as they were typed. */
export function valueWords({ key, choices, values }: AnsweredQuestion, form: Form | null): string {
  const only = values[key];
  if (only !== undefined && choices.length > 0) {
    if (only === "yes" || only === "true") return t("parts.yes");
    if (only === "no" || only === "false") return t("parts.no");
    return (form ? formField(form.fields, key)?.choices ?? [] : []).find((choice) => choice.value === only)?.label ?? only;
  }
  if ("probe.tolerance_class" in values) return t("check.probe.class", { number: values["probe.tolerance_class"] ?? "" });
  return Object.values(values).map(asPeopleWrite).join(", ");
}
