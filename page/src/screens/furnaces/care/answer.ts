// What is due of a furnace, its chart and its report, as the description of the interface has them.
import { ask } from "../../../api/client";
import type { CheckKind, Sentence } from "../check/answer";

export type SetBy = "its certificate" | "furnace maker's instruction" | "the lab" | "the lab, for every furnace" | "common practice" | "assumed";

/** How often, and whose word that is; all null where nobody says. */
export interface HowOften {
  interval: string | null;
  every_days: number | null;
  after_firings: number | null;
  after_hours: number | null;
  set_by: SetBy | null;
  stated_in: string | null;
  person: string | null;
}

interface Done extends Sentence {
  on: string;
  by: string;
}

interface Doing {
  /** May be marked as done by hand. */
  by_hand: boolean;
  /** The check that does it. */
  check: CheckKind | null;
}

export interface DueItem extends HowOften, Doing {
  what: string;
  work: string;
  on: string;
  overdue: boolean;
  reason: Sentence;
  last: Done | null;
}

export interface Work extends HowOften, Doing {
  work: string;
  every_furnace_has_it: boolean;
  /** What calls for it whenever it happens. */
  called_for_by: Sentence | null;
  last: Done | null;
}

export interface DueOfFurnace {
  furnace: string;
  label: string;
  version: number;
  due: DueItem[];
  works: Work[];
  without_interval: { work: string; sentence: string }[];
}

export interface DueReference extends HowOften {
  reference: string;
  label: string;
  of: string;
  on: string;
  overdue: boolean;
  reason: Sentence;
}

export interface DueAnswer {
  today: string;
  first: Sentence;
  furnaces: DueOfFurnace[];
  every_furnace: { version: number | null };
  references: DueReference[];
}

export interface ChartedCheck {
  check: string;
  at: string;
  day: string;
  error_K: number;
  standard_uncertainty_K: number;
  trend_K: number;
  trend_half_width_K: number;
  sum_high: number;
  sum_low: number;
  sum_beyond: boolean;
  set_aside: boolean;
  run: number;
}

export interface Forecast {
  error_K: number;
  slope_K_per_month: number;
  leaves_limit_on: string | null;
  earliest_on: string | null;
}

export interface ChartAnswer {
  outcome: "good" | "not good" | "cannot tell";
  finding: Sentence;
  outlook: Sentence;
  next: Sentence;
  signals: Sentence[];
  limit_K: number;
  limit_from: string;
  cusum: { h: number; first_alarm: string | null };
  average_run: number;
  runs: { from: string; day: string; checks: number; begins: "first check" | "adjusted" | "correction changed" | "repaired"; repaired: string | null; target_K: number }[];
  forecast: Forecast | null;
  checks: ChartedCheck[];
  left_out: { check: string; sentence: string }[];
}

export interface ReportedCheck {
  check: string;
  on: string;
  came: "good" | "not good" | "cannot tell";
  found_parts: Sentence[];
  limit_K: number | null;
  by: string | null;
}

export interface ReportAnswer {
  outcome: "qualified" | "not qualified" | "not yet qualified" | "out of use";
  finding: Sentence;
  next: Sentence;
  out_of_use_by: string | null;
  works: { work: string; wanted: boolean; state: "good" | "not good" | "cannot tell" | "to be done" | "not wanted again"; as_found: ReportedCheck | null; as_left: ReportedCheck | null }[];
  specimens: { wanted: number; as_wanted: number; not_as_wanted: number };
  changes: { on: string; reason: Sentence; by: string }[];
}

const of = (furnace: string) => `/api/furnaces/${encodeURIComponent(furnace)}`;

export const care = {
  dueOfAll: () => "/api/furnaces/due",
  due: (furnace: string) => `${of(furnace)}/due`,
  chart: (furnace: string) => `${of(furnace)}/chart`,
  report: (furnace: string) => `${of(furnace)}/report`,
  /** Files that a link opens: no header of ours goes with it, so that it says the language and the units itself. */
  picture: (furnace: string, language: string, units: string, shade: "light" | null = null) => `${of(furnace)}/chart.svg?language=${language}&units=${units}${shade ? `&shade=${shade}` : ""}`,
  sheet: (furnace: string, language: string, units: string, paper: "a4" | "letter") => `${of(furnace)}/report.pdf?language=${language}&units=${units}&paper=${paper}`,
};

export interface IntervalBody {
  work: string;
  every_days?: string;
  after_firings?: string;
  after_hours?: string;
  by?: "furnace maker" | "lab";
  stated_in?: string;
  as_before?: boolean;
  from?: number;
  reason?: string;
}

export const setInterval = (furnace: string, body: IntervalBody) => ask<DueAnswer>(care.due(furnace), { method: "PUT", body });
export const setIntervalOfEvery = (body: IntervalBody) => ask<DueAnswer>(care.dueOfAll(), { method: "PUT", body });
export const markDone = (furnace: string, body: { work: string; on: string; from: number; reason?: string }) => ask<DueAnswer>(`${care.due(furnace)}/done`, { method: "POST", body });
