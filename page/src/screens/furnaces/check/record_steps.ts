// What is asked before a record is judged, in order, and the request that the answers make.
import { t, type PlainWord } from "../../../words";
import type { Answers, RecordKind } from "./answer";
import { temperature, temperatureUnit } from "./shown";

interface Step {
  ask: PlainWord;
  why: () => string;
}

/** A choice of the form, a truth, a value with its unit, or a record of readings; `skip` words a way past it. */
export type RecordStep = Step &
  (
    | { of: "choice"; key: string; skip: PlainWord }
    | { of: "truth"; key: string }
    | { of: "value"; key: string; example: string; skip: PlainWord }
    | { of: "record"; list: "pump_down" | "rise" | "run"; gauge: boolean; example: (unit: string) => string; skip?: PlainWord }
  );

/** Units a gauge of vacuum may show; the first is the usual one. */
export const GAUGE_UNITS = ["mbar", "hPa", "kPa", "mmHg", "inHg", "%"] as const;
const GAUGE_EXAMPLES: Readonly<Record<string, string>> = { kPa: "30", mmHg: "535", inHg: "21", "%": "70" };

export const STEPS: Record<RecordKind, readonly RecordStep[]> = {
  vacuum: [
    { of: "choice", key: "vacuum.gauge", ask: "check.record.gauge", why: () => t("check.record.gauge_why"), skip: "check.record.gauge_skip" },
    { of: "truth", key: "vacuum.pump_warm", ask: "check.record.pump_warm", why: () => t("check.record.pump_warm_why") },
    { of: "value", key: "vacuum.room", example: "21 °C", ask: "check.record.room", why: () => t("check.record.room_why"), skip: "check.record.not_read" },
    { of: "value", key: "vacuum.barometer", example: "991 hPa", ask: "check.record.barometer", why: () => t("check.record.barometer_why"), skip: "check.record.not_read" },
    { of: "record", list: "pump_down", gauge: true, example: (unit) => `30 s, ${GAUGE_EXAMPLES[unit] ?? "300"} ${unit}`, ask: "check.record.pump_down", why: () => t("check.record.pump_down_why") },
    { of: "record", list: "rise", gauge: true, example: (unit) => `30 s, ${GAUGE_EXAMPLES[unit] ?? "48"} ${unit}`, ask: "check.record.rise", why: () => t("check.record.rise_why"), skip: "check.record.cannot_be_shut" },
  ],
  heating: [
    { of: "value", key: "heating_run.room", example: "21 °C", ask: "check.record.room", why: () => t("check.record.run_room_why"), skip: "check.record.not_read" },
    { of: "record", list: "run", gauge: false, example: () => `0 s, ${temperature(420)}`, ask: "check.record.run", why: () => t("check.record.run_why", { low: temperature(500), high: temperature(900) }) },
    { of: "value", key: "heating_run.mains", example: "229 V", ask: "check.record.mains", why: () => t("check.record.mains_why"), skip: "check.record.not_read" },
    { of: "truth", key: "heating_run.capped", ask: "check.record.capped", why: () => t("check.record.capped_why") },
  ],
};

export interface Recorded {
  /** Steps that were answered, one after the other. */
  done: number;
  answers: Answers;
  /** By list: the lines as they were typed; or the text of a table. */
  lines: Readonly<Record<string, string>>;
  tables: Readonly<Record<string, string>>;
  cannotBeShut: boolean;
  typed: Readonly<Record<string, string>>;
}

export const NOTHING_RECORDED: Recorded = { done: 0, answers: {}, lines: {}, tables: {}, cannotBeShut: false, typed: {} };

export function hasReadings({ lines, tables }: Recorded): boolean {
  return [...Object.values(lines), ...Object.values(tables)].some((text) => text.trim() !== "");
}

/** The unit that two bare numbers of a record are read in. */
export function unitOf(step: Extract<RecordStep, { of: "record" }>, { typed, answers }: Recorded): string {
  if (!step.gauge) return temperatureUnit();
  return typed["gauge_unit"] ?? (answers["vacuum.gauge"] === "percent of ambient" ? "%" : GAUGE_UNITS[0]);
}

/** Parted by blanks, a semicolon, or a comma and a blank; a comma without one is a decimal mark: "0,5 950,5". Else by a lone comma. */
const TWO_NUMBERS = [/^(\d+(?:[.,]\d+)?)(?:\s*;\s*|\s*,\s+|\s+)([+−-]?\d+(?:[.,]\d+)?)$/, /^(\d+(?:[.]\d+)?)\s*,\s*([+−-]?\d+(?:[.]\d+)?)$/];

/** The readings of the lines that hold some; "30 300" is 30 s and 300 of the gauge's unit. */
export function readingsIn(text: string, unit: string): string[] {
  const lines = text.split("\n").map((line) => line.trim()).filter((line) => line !== "");
  return lines.map((line) => {
    const found = TWO_NUMBERS.map((form) => form.exec(line)).find((each) => each !== null);
    return found ? `${found[1]} s, ${found[2]} ${unit}` : line;
  });
}

export function recordBody(recorded: Recorded, kind: RecordKind, name: string | null): Record<string, unknown> {
  const body: Record<string, unknown> = {};
  if (name !== null) body["go_on"] = name;
  if (Object.keys(recorded.answers).length > 0) body["answers"] = recorded.answers;
  for (const step of STEPS[kind]) {
    if (step.of !== "record") continue;
    const table = recorded.tables[step.list];
    const lines = readingsIn(recorded.lines[step.list] ?? "", unitOf(step, recorded));
    if (table) body[`${step.list}_table`] = table;
    else if (lines.length > 0) body[step.list] = lines;
  }
  if (recorded.cannotBeShut) body["cannot_be_shut"] = true;
  return body;
}
