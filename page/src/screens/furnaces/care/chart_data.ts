// The numbers of a chart in the unit the reader chose, a column a line, and what stands beside them.
import { units } from "../../../words";
import type { ChartAnswer } from "./answer";

/** One difference in the reader's unit. */
export const shownDifference = (K: number): number => (units.value === "fahrenheit" ? 1.8 * K : K);

const seconds = (at: string): number => Date.parse(at) / 1000;
const DAY_S = 86_400, MONTH_S = 30.4375 * DAY_S;

export interface ChartData {
  /** Seconds since 1970, UTC. */
  at: number[];
  error: number[];
  /** Two standard uncertainties. */
  unsure: number[];
  trend: number[];
  high: number[];
  low: number[];
  /** Where a line ends and another begins: places in the columns, the first of each run. */
  runs: number[];
  limit: number;
  alarm: number;
  /** From the last check on. */
  ahead: { from: number; error: number; to: number; then: number } | null;
  /** Furthest up or down of the errors with their ranges and of the sums, the limits always in sight. */
  mostError: number;
  mostSum: number;
  from: number;
  to: number;
}

/** How far a forecast is drawn: to the day the limit is left, and no further than half as long as the checks reach back. */
function aheadOf({ checks, forecast }: ChartAnswer): ChartData["ahead"] {
  const first = checks[0], last = checks.at(-1);
  if (!first || !last || !forecast?.leaves_limit_on) return null;
  const from = seconds(last.at);
  const leaves = Date.parse(`${forecast.leaves_limit_on}T12:00:00Z`) / 1000;
  if (leaves <= from) return null;
  const to = Math.min(leaves, from + Math.max(60 * DAY_S, (from - seconds(first.at)) / 2));
  return { from, error: shownDifference(forecast.error_K), to, then: shownDifference(forecast.error_K + (forecast.slope_K_per_month * (to - from)) / MONTH_S) };
}

/** Greatest of many, without a call that takes each as an argument. */
const greatest = (start: number, values: readonly number[]): number => values.reduce((most, one) => (one > most ? one : most), start);

export function dataOf(chart: ChartAnswer): ChartData {
  const { checks } = chart;
  const column = (of: (check: ChartAnswer["checks"][number]) => number) => checks.map(of);
  const at = column((one) => seconds(one.at));
  const error = column((one) => shownDifference(one.error_K));
  const unsure = column((one) => shownDifference(2 * one.standard_uncertainty_K));
  const high = column((one) => one.sum_high), low = column((one) => one.sum_low);
  const limit = shownDifference(chart.limit_K), ahead = aheadOf(chart);
  const from = at[0] ?? 0, last = ahead?.to ?? at.at(-1) ?? 0;
  const beside = Math.max(DAY_S, 0.01 * (last - from));
  return {
    at, error, unsure, high, low, limit, ahead,
    trend: column((one) => shownDifference(one.trend_K)),
    runs: checks.flatMap((one, place) => (place === 0 || one.run !== checks[place - 1]?.run ? [place] : [])),
    alarm: chart.cusum.h,
    mostError: 1.1 * greatest(limit, error.map((one, place) => Math.abs(one) + (unsure[place] ?? 0))),
    mostSum: 1.15 * greatest(chart.cusum.h, [...high, ...low]),
    from: from - beside,
    to: last + beside,
  };
}

/** The stretch that ends with the last check and holds a year of them, within all there is. */
export function lastYear({ at, to, from }: ChartData): { min: number; max: number } {
  const last = at.at(-1) ?? to;
  return { min: Math.max(from, last - 365.25 * DAY_S), max: Math.min(to, last + 4 * DAY_S) };
}
