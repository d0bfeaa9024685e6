// What a guided check of a furnace is asked and what it answers, as the description of the interface has it.

/** What is checked, and by what, in the words of paths. */
export type GuidedKind = "temperature" | "thermocouple" | "chamber-map";
/** Told from a record of a gauge or of the display. */
export type RecordKind = "vacuum" | "heating";
export type CheckKind = GuidedKind | RecordKind;
export const GUIDED: readonly GuidedKind[] = ["temperature", "thermocouple", "chamber-map"];
export const RECORDED: readonly RecordKind[] = ["vacuum", "heating"];

export type CheckLevel = "going on" | "good" | "not good" | "cannot tell";
export type Decision = "left" | "corrected" | "allowed for" | "out of use";
export type MapPlace = "middle" | "front" | "back" | "left" | "right";

export interface Sentence {
  sentence: string;
}

export interface CheckQuestion {
  /** Of the answer; "compared" and "map" ask for a reading. */
  key: string;
  sentence: string;
  why: Sentence;
  choices: string[];
  example: string;
  /** Of a tab: the place it was fired at. */
  place: MapPlace | null;
  /** Of a tab: in which of the two ways the first was told. */
  told_by: "heat" | "colour" | null;
}

/** A question that is answered, and may be answered anew. */
export interface AnsweredQuestion extends CheckQuestion {
  /** The answers by the keys they are kept under: of a certificate its correction, uncertainty and day. */
  values: Readonly<Record<string, string>>;
}

interface Every {
  furnace: string;
  check: string;
  level: CheckLevel;
  sentence: string;
  remarks: Sentence[];
  /** null: nothing of it is kept yet. */
  version: number | null;
  finished: boolean;
  /** Others of this furnace and kind that are not finished. */
  going_on: string[];
  decision: Decision | null;
}

interface Common extends Every {
  question: CheckQuestion | null;
  answered: AnsweredQuestion[];
}

/** The error a check is judged by, with its range (k = 2). */
export interface JudgedError {
  error_K: number;
  standard_uncertainty_K: number;
  low_K: number;
  high_K: number;
}

export interface FiredSinceGood {
  count: number;
  check: string | null;
}

export interface BudgetPart extends Sentence {
  standard_uncertainty_K: number;
  standing: string;
  source: string;
}

export interface ErrorAt {
  temperature_C: number;
  error_K: number;
  standard_uncertainty_K: number;
  low_K: number;
  high_K: number;
}

export interface Way {
  decision: "corrected" | "allowed for";
  sentences: Sentence[];
}

export interface OfDisplay extends Common {
  budget: BudgetPart[];
  limit_K: number;
  limit_from: "lab" | "Heatwork";
  judged: JudgedError | null;
  line: { sentence: string; at: ErrorAt[] } | null;
  keying: { keyed_now_K: number; to_key_K: number; sentence: string } | null;
  ways: Way[];
  then: Sentence[];
  fired_since_good: FiredSinceGood | null;
}

export interface WireCheck extends OfDisplay {
  of: "temperature";
  before: Sentence;
  melting: { sentence: string } | null;
  trials: { display_C: number; melted: boolean }[];
  found: { error_K: number; standard_uncertainty_K: number; range_low_K: number; range_high_K: number } | null;
  next: { display_C: number; sentence: string } | null;
}

export interface ProbeFound {
  display_C: number;
  probe_C: number;
  true_C: number;
  error_K: number;
  standard_uncertainty_K: number;
}

export interface ProbeCheck extends OfDisplay {
  of: "thermocouple";
  found: ProbeFound[];
}

export interface MapCheck extends Common {
  of: "chamber map";
  found: { where: MapPlace; hotter_K: number | null; colour_difference: number | null }[];
  spread_K: number | null;
  colour_difference: number | null;
  limit: number;
}

interface OfRecord extends Every {
  findings: { about: string; level: CheckLevel; sentence: string }[];
  then: Sentence[];
  fired_since_good: FiredSinceGood | null;
  forecast: { day: string; earliest_day: string; latest_day: string | null } | null;
}

export interface VacuumCheck extends OfRecord {
  of: "vacuum";
  pump: { time_constant_s: number; ultimate_mbar: number; to_50_mbar_s: number | null } | null;
  chamber: { leak_mbar_per_s: number | null; rest_mbar: number | null } | null;
  records: { pump_down: [number, number][]; rise: [number, number][] };
}

export interface HeatingCheck extends OfRecord {
  of: "heating";
  mains_V: number | null;
  nominal_mains_V: number;
  run: { gain_at_nominal_K_per_s: number | null; loss_per_s: number | null; from_500_to_900_s: number | null } | null;
  samples: [number, number][];
}

export type RecordAnswer = VacuumCheck | HeatingCheck;

export type CheckAnswer = WireCheck | ProbeCheck | MapCheck;

export interface WireFired {
  display: string;
  melted: "melted" | "whole";
}

export interface ProbeRead {
  display: string;
  probe?: string;
  emf?: string;
  cold_junction?: string;
}

export interface TabSeen {
  where: string;
  looked_like?: string;
  lightness?: string;
  redness?: string;
  yellowness?: string;
}

/** A reading of any kind, under the name of its list. */
export type Reading = { list: "trials"; value: WireFired } | { list: "compared"; value: ProbeRead } | { list: "tabs"; value: TabSeen };
/** Answers by their keys; those of one step stand together. */
export type Answers = Readonly<Record<string, string>>;
