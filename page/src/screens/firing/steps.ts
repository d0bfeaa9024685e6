// The program as the rows of its table: steps in the order of a firing, and in each the fields that belong to it.
import { countOf, entryKey, holds, type Values } from "./values";

export type Column = "temperature" | "rate" | "time" | "chamber";
export type Kind = "temperature" | "rate" | "duration" | "share" | "pressure";

export interface StepField {
  /** Key of the value in the program, "heating[1].to". */
  key: string;
  column: Column;
  kind: Kind;
  required: boolean;
}

export type StepName = "standby" | "entry" | "drying" | "closing" | "preheat" | "heating" | "vacuum_start" | "vacuum_end" | "cooling" | "opening" | "unloading";

export interface Step {
  id: string;
  name: StepName;
  /** The number of a stage, from 0, and of how many; null for steps there is one of. */
  stage: { list: "heating" | "cooling"; index: number; of: number } | null;
  fields: StepField[];
}

function field(key: string, column: Column, kind: Kind, required = false): StepField {
  return { key, column, kind, required };
}

function one(name: StepName, ...fields: StepField[]): Step {
  return { id: name, name, stage: null, fields };
}

function heating(index: number, of: number): Step {
  const at = entryKey("heating", index);
  const fields = [field(`${at}.to`, "temperature", "temperature", true), field(`${at}.rate`, "rate", "rate", true), field(`${at}.hold`, "time", "duration"), field(`${at}.vacuum_level`, "chamber", "pressure")];
  return { id: at, name: "heating", stage: { list: "heating", index, of }, fields };
}

function cooling(index: number, of: number): Step {
  const at = entryKey("cooling", index);
  const fields = [field(`${at}.to`, "temperature", "temperature", true), field(`${at}.rate`, "rate", "rate"), field(`${at}.hold`, "time", "duration"), field(`${at}.opening`, "chamber", "share")];
  return { id: at, name: "cooling", stage: { list: "cooling", index, of }, fields };
}

function vacuum(): Step[] {
  return [
    one("vacuum_start", field("vacuum.from", "temperature", "temperature", true), field("vacuum.level", "chamber", "pressure", true)),
    one("vacuum_end", field("vacuum.to", "temperature", "temperature"), field("vacuum.hold_under_vacuum", "time", "duration")),
  ];
}

/** The rows of a program's table. A program without vacuum or cooling has no row for it. */
export function stepsOf(program: Values): Step[] {
  const heats = countOf(program, "heating");
  const cools = countOf(program, "cooling");
  return [
    one("standby", field("standby", "temperature", "temperature", true)),
    one("entry", field("entry", "temperature", "temperature", true)),
    one("drying", field("drying_time", "time", "duration", true), field("drying_opening", "chamber", "share")),
    one("closing", field("closing_time", "time", "duration", true)),
    one("preheat", field("preheat_hold", "time", "duration")),
    ...Array.from({ length: heats }, (_, index) => heating(index, heats)),
    ...(holds(program, "vacuum") ? vacuum() : []),
    ...Array.from({ length: cools }, (_, index) => cooling(index, cools)),
    one("opening", field("opening_temperature", "temperature", "temperature")),
    one("unloading", field("unloading_temperature", "temperature", "temperature")),
  ];
}

/** The same key in the maker's program; where the stages are not as many, the last heating stages are taken for the same. */
export function makersKey(key: string, program: Values, maker: Values): string | null {
  const found = /^(heating|cooling)\[(\d+)\]\.(.*)$/.exec(key);
  if (!found) return key;
  const [, list = "", index = "1", rest = ""] = found;
  const here = countOf(program, list);
  const there = countOf(maker, list);
  if (here === there) return key;
  const at = there - (here - Number(index));
  return list === "heating" && at >= 1 ? `heating[${at}].${rest}` : null;
}

/** Which limits of the maker's sheet speak of a key. */
export function limitsOf(key: string, program: Values): readonly string[] {
  const last = entryKey("heating", countOf(program, "heating") - 1);
  if (key === `${last}.to`) return ["top_at_least", "top_at_most"];
  if (key === `${last}.hold`) return ["hold_at_least", "hold_at_most"];
  if (/^heating\[\d+\]\.rate$/.test(key)) return ["rate_at_least", "rate_at_most"];
  if (/^cooling\[\d+\]\.rate$/.test(key)) return ["cooling_rate_at_most"];
  return SINGLE_LIMITS[key] ?? [];
}

const SINGLE_LIMITS: Readonly<Record<string, readonly string[]>> = {
  entry: ["entry_at_most"],
  drying_time: ["drying_at_least"],
  closing_time: ["closing_at_least"],
  "vacuum.from": ["vacuum_from_at_most"],
  "vacuum.level": ["vacuum_level_at_most"],
  opening_temperature: ["opening_at_most"],
};
