// What was changed, in words, a sentence each.
import { t, type PlainWord } from "../../words";
import type { Change, Values } from "./values";

const NAMES: Readonly<Record<string, PlainWord>> = {
  standby: "firing.step.standby",
  entry: "firing.step.entry",
  drying_time: "firing.step.drying",
  drying_opening: "firing.change.drying_opening",
  closing_time: "firing.step.closing",
  preheat_hold: "firing.step.preheat",
  opening_temperature: "firing.step.opening",
  unloading_temperature: "firing.step.unloading",
  "vacuum.from": "firing.step.vacuum_start",
  "vacuum.to": "firing.step.vacuum_end",
  "vacuum.level": "firing.change.vacuum_level",
  "vacuum.hold_under_vacuum": "firing.change.hold_under_vacuum",
  vacuum: "firing.step.vacuum",
  tray: "firing.load.tray",
  furnace: "firing.load.furnace",
  program: "firing.load.program",
  instruction: "firing.load.instruction",
  stage: "firing.load.stage",
  mass: "firing.load.tray_mass",
  "chamber.cold": "firing.load.chamber_state",
  "chamber.since_last_firing": "firing.load.since_last_firing",
  "chamber.room_humidity": "firing.load.humidity",
  "chamber.room": "firing.load.room",
};

const COLUMNS: Readonly<Record<string, PlainWord>> = {
  to: "firing.column.temperature",
  rate: "firing.column.rate",
  hold: "firing.column.time",
  vacuum_level: "firing.column.pressure",
  opening: "firing.column.opening",
};

/** What people call a key: "Heating 1, rate". */
export function nameOfKey(key: string): string {
  const known = NAMES[key];
  if (known) return t(known);
  const stage = /^(heating|cooling)\[(\d+)\](?:\.(.*))?$/.exec(key);
  if (!stage) return key;
  const name = t(stage[1] === "heating" ? "firing.step.heating_of" : "firing.step.cooling_of", { stage: Number(stage[2]) });
  const column = COLUMNS[stage[3] ?? ""];
  return column ? `${name}, ${t(column)}` : name;
}

export function sentencesOf(change: Change, before: Values): string[] {
  const set = Object.entries(change.set).map(([key, value]) => {
    const old = before[key];
    return old === undefined ? `${nameOfKey(key)}: ${value}` : t("firing.change.changed", { what: nameOfKey(key), before: old, after: value });
  });
  return [...set, ...change.unset.map((key) => t("firing.change.taken_out", { what: nameOfKey(key) }))];
}
