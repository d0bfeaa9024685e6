import { useId } from "preact/hooks";
import type { Form } from "../../../api/client";
import { formField } from "../../../kept/form_field";
import { Button, Field } from "../../../parts";
import { t } from "../../../words";
import { BigNumber } from "./big_number";
import { GAUGE_UNITS, unitOf, type Recorded, type RecordStep } from "./record_steps";
import { exampleShown, unitsFor } from "./shown";
import { StepHead } from "./step_head";

export interface RecordQuestionProps {
  step: RecordStep;
  told: Recorded;
  form: Form | null;
  busy: boolean;
  wrong: string | null;
  type: (key: string, text: string) => void;
  say: (next: Recorded) => void;
}

/** One step of what is asked before a record is judged. */
export function RecordQuestion(props: RecordQuestionProps) {
  const { step } = props;
  return (
    <>
      <StepHead of={step.ask}>{t(step.ask)}</StepHead>
      <p class="check-why" id="why">{step.why()}</p>
      {step.of === "record" ? <Readings {...props} step={step} /> : step.of === "value" ? <Value {...props} step={step} /> : <Keys {...props} step={step} />}
    </>
  );
}

type Of<Kind extends RecordStep["of"]> = RecordQuestionProps & { step: Extract<RecordStep, { of: Kind }> };

function without(answers: Recorded["answers"], key: string): Recorded["answers"] {
  return Object.fromEntries(Object.entries(answers).filter(([each]) => each !== key));
}

function Keys({ step, told, form, busy, say }: Of<"choice" | "truth">) {
  const choices = step.of === "choice" ? (form ? formField(form.fields, step.key)?.choices ?? [] : []) : [{ value: "yes", label: t("parts.yes") }, { value: "no", label: t("parts.no") }];
  const before = told.answers[step.key];
  return (
    <div class="check-keys" role="group" aria-labelledby="question" aria-describedby="why">
      {choices.map(({ value, label }) => (
        <button key={value} type="button" class="check-key" aria-pressed={before === undefined ? undefined : before === value} disabled={busy} onClick={() => say({ ...told, answers: { ...told.answers, [step.key]: value } })}>
          {label}
        </button>
      ))}
      {step.of === "choice" ? <button type="button" class="check-key" disabled={busy} onClick={() => say({ ...told, answers: without(told.answers, step.key) })}>{t(step.skip)}</button> : null}
    </div>
  );
}

function Value({ step, told, busy, wrong, type, say }: Of<"value">) {
  const value = told.typed[step.key] ?? told.answers[step.key] ?? "";
  const submit = (event: Event) => {
    event.preventDefault();
    if (value.trim() !== "") say({ ...told, answers: { ...told.answers, [step.key]: value } });
  };
  return (
    <form class="check-form" onSubmit={submit}>
      <BigNumber label={null} value={value} units={unitsFor(step.example)} unitsLabel={t("check.unit")} help={t("check.such_as", { example: exampleShown(step.example) })} mistake={wrong ?? undefined} busy={busy} onInput={(text) => type(step.key, text)} />
      <div class="check-actions">
        <Button kind="primary" submit busy={busy} disabled={value.trim() === ""}>{t("parts.next")}</Button>
        <Button onPress={() => say({ ...told, answers: without(told.answers, step.key) })}>{t(step.skip)}</Button>
      </div>
    </form>
  );
}

/** What the gauge's numbers are: of two numbers alone the second is one of these. */
function GaugeUnit({ unit, choose }: { unit: string; choose: (unit: string) => void }) {
  const id = useId();
  return (
    <div class="field">
      <label class="field-label" for={id}>{t("check.record.gauge_unit")}</label>
      <select id={id} class="field-input big-unit-choice" value={unit} onChange={(event) => choose(event.currentTarget.value)}>
        {GAUGE_UNITS.map((each) => (
          <option key={each} value={each}>{each}</option>
        ))}
      </select>
    </div>
  );
}

/** Readings as one notes them, a line each; or the table a gauge or logger wrote. */
function Readings({ step, told, busy, wrong, type, say }: Of<"record">) {
  const id = useId();
  const { list, skip } = step;
  const lines = told.typed[list] ?? told.lines[list] ?? "";
  const unit = unitOf(step, told);
  const submit = (event: Event) => {
    event.preventDefault();
    if (lines.trim() !== "") say({ ...told, lines: { ...told.lines, [list]: lines }, tables: without(told.tables, list) });
  };
  const table = (file: File | undefined) => {
    if (file) void file.text().then((text) => say({ ...told, tables: { ...told.tables, [list]: text } }));
  };
  return (
    <form class="check-form" onSubmit={submit}>
      {step.gauge ? <GaugeUnit unit={unit} choose={(each) => type("gauge_unit", each)} /> : null}
      <Field label={t("check.record.lines")} help={t("check.record.lines_help", { example: step.example(unit), unit })} lines={8} value={lines} mistake={wrong?.replace(/^[a-z_]+: /, "")} onInput={(text) => type(list, text)} />
      <div class="check-actions">
        <Button kind="primary" submit busy={busy} disabled={lines.trim() === ""}>{t("parts.next")}</Button>
        {skip ? <Button onPress={() => say({ ...told, lines: without(told.lines, list), tables: without(told.tables, list), cannotBeShut: list === "rise" })}>{t(skip)}</Button> : null}
      </div>
      <div class="field">
        <label class="field-label" for={id}>{t("check.record.table")}</label>
        <input id={id} class="field-input" type="file" accept=".csv,.txt,text/csv,text/plain" onChange={(event) => table(event.currentTarget.files?.[0])} />
        <p class="field-help">{t("check.record.table_help")}</p>
      </div>
    </form>
  );
}
