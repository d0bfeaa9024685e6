// The program as a plain table: a step a row, each value typed with its unit.
import { useComputed } from "@preact/signals";
import { Button } from "../../parts";
import { t, units, type PlainWord } from "../../words";
import { namesOf } from "./bench";
import { useDesk } from "./desk_context";
import { useHints } from "./hints";
import { stepsOf, type Column, type Step, type StepField } from "./steps";
import { withUnit } from "./typed_units";
import { MemoValueField } from "./value_field";
import { countOf, entryKey, holds, withEntry, withoutEntry, without, type Values } from "./values";

const COLUMNS: readonly Column[] = ["temperature", "rate", "time", "chamber"];

export function fieldId(of: string, key: string): string {
  return `${of}-${key}`.replace(/[^A-Za-z0-9-]+/g, "-");
}

export function stepName(step: Step): string {
  if (step.name === "heating") return step.stage && step.stage.of > 1 ? t("firing.step.heating_of", { stage: step.stage.index + 1 }) : t("firing.step.heating");
  if (step.name === "cooling") return step.stage && step.stage.of > 1 ? t("firing.step.cooling_of", { stage: step.stage.index + 1 }) : t("firing.step.cooling");
  return t(`firing.step.${step.name}` as PlainWord & `firing.step.${typeof step.name}`);
}

export function fieldName(field: StepField): string {
  if (field.column === "chamber") return t(field.kind === "pressure" ? "firing.column.pressure" : "firing.column.opening");
  if (field.key === "vacuum.hold_under_vacuum") return t("firing.column.hold_under_vacuum");
  return t(`firing.column.${field.column}`);
}

export function ProgramTable() {
  const desk = useDesk();
  const of = useComputed(() => `program ${namesOf(desk.bench.value).program}`).value;
  const values = desk.values(of);
  const steps = stepsOf(values);
  return (
    <section class="program" aria-label={t("firing.table.title")} onKeyDown={(event) => shortcuts(event, desk)}>
      <div class="steps">
        <div class="steps-head" aria-hidden="true">
          <span />
          {COLUMNS.map((column) => (
            <span key={column}>{t(`firing.column.${column}`)}</span>
          ))}
        </div>
        {steps.map((step) => (
          <StepRow key={step.id} step={step} of={of} values={values} />
        ))}
      </div>
      <AddSteps of={of} values={values} />
    </section>
  );
}

function shortcuts(event: KeyboardEvent, desk: ReturnType<typeof useDesk>): void {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const key = event.key.toLowerCase();
  if (key !== "z" && key !== "y") return;
  event.preventDefault();
  if (key === "y" || event.shiftKey) desk.redo();
  else desk.undo();
}

function StepRow({ step, of, values }: { step: Step; of: string; values: Values }) {
  const desk = useDesk();
  const name = stepName(step);
  const { stage } = step;
  const hints = useHints();
  const wrong = step.fields.flatMap(({ key }) => {
    const sentence = hints.mistake(of, key);
    return sentence ? [{ id: `${fieldId(of, key)}-mistake`, sentence }] : [];
  });
  return (
    <div class="step" role="group" aria-label={name}>
      <span class="step-name" aria-hidden="true">
        {name}
      </span>
      {COLUMNS.map((column) => {
        const field = step.fields.find((each) => each.column === column);
        return field ? <StepValue key={column} field={field} step={name} of={of} values={values} /> : <span key={column} class="value-none" />;
      })}
      {stage && !(stage.list === "heating" && stage.of === 1) ? (
        <button type="button" class="step-remove" onClick={() => desk.type(of, withoutEntry(values, stage.list, stage.index))} aria-label={t("firing.table.take_out", { step: name })}>
          <span aria-hidden="true">×</span>
        </button>
      ) : step.name === "vacuum_start" ? (
        <button type="button" class="step-remove" onClick={() => desk.type(of, without(values, "vacuum"))} aria-label={t("firing.table.take_out", { step: t("firing.step.vacuum") })}>
          <span aria-hidden="true">×</span>
        </button>
      ) : (
        <span class="value-none" />
      )}
      {wrong.map(({ id, sentence }) => (
        <p key={id} id={id} class="step-mistake">
          <strong>{t("parts.mistake")}</strong> {sentence}
        </p>
      ))}
    </div>
  );
}

function StepValue({ field, step, of, values }: { field: StepField; step: string; of: string; values: Values }) {
  const desk = useDesk();
  const hints = useHints();
  const { key } = field;
  const value = values[key] ?? "";
  const base = desk.base.value[of];
  const name = fieldName(field);
  const typedIn = (text: string) => desk.type(of, text === "" && !field.required ? without(desk.values(of), key) : { ...desk.values(of), [key]: text }, `${of} ${key}`);
  return (
    <MemoValueField
      id={fieldId(of, key)}
      label={`${step}, ${name}`}
      short={name}
      value={value}
      required={field.required}
      otherwise={hints.otherwise(key)}
      kept={base && (base[key] ?? "") !== value ? (base[key] ?? "") : null}
      maker={hints.maker(key, values)}
      hint={hints.hint(key, values)}
      mistake={hints.mistake(of, key)}
      onInput={typedIn}
      onLeave={(text) => {
        const whole = withUnit(text, field.kind, units.peek());
        if (whole !== text) typedIn(whole);
      }}
    />
  );
}

function AddSteps({ of, values }: { of: string; values: Values }) {
  const desk = useDesk();
  const heats = countOf(values, "heating");
  const cools = countOf(values, "cooling");
  const last = entryKey("heating", heats - 1);
  const top = values[`${last}.to`] ?? "";
  const addHeating = () => desk.type(of, withEntry(values, "heating", heats, { to: top, rate: values[`${last}.rate`] ?? "", hold: "0 s" }));
  const addCooling = () => desk.type(of, withEntry(values, "cooling", cools, { to: values["opening_temperature"] ?? values["unloading_temperature"] ?? values["standby"] ?? "" }));
  const addVacuum = () => {
    const maker = desk.base.peek()[`program ${desk.base.peek()[`instruction ${namesOf(desk.bench.peek()).instruction}`]?.["program"] ?? ""}`] ?? {};
    const vacuum = Object.fromEntries(Object.entries(maker).filter(([key]) => key.startsWith("vacuum.")));
    desk.type(of, { ...values, "vacuum.from": values["entry"] ?? "", "vacuum.to": top, "vacuum.level": "50 mbar", ...vacuum });
  };
  return (
    <div class="steps-add">
      <Button kind="quiet" onPress={addHeating}>
        {t("firing.table.add_heating")}
      </Button>
      <Button kind="quiet" onPress={addCooling}>
        {t("firing.table.add_cooling")}
      </Button>
      {holds(values, "vacuum") ? null : (
        <Button kind="quiet" onPress={addVacuum}>
          {t("firing.table.add_vacuum")}
        </Button>
      )}
    </div>
  );
}
