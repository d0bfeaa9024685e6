// Where days and values lie in a chart.
import type { ChartAnswer } from "./answer";

export interface Pane {
  x: (ms: number) => number;
  y: (value: number) => number;
}

export const LEFT = 62, RIGHT = 14, FOOT = 34;

export const msOfDay = (day: string): number => Date.parse(`${day}T12:00:00Z`);

const tenths = (value: number): number => Math.round(10 * value) / 10;

/** The days a chart spans: its checks, and a forecast no further than the checks reach back. */
export function daysOf({ checks, forecast }: ChartAnswer): { from: number; to: number; forecastTo: number | null } {
  const from = Date.parse(checks[0]?.at ?? ""), last = Date.parse(checks.at(-1)?.at ?? "");
  const leaves = forecast?.leaves_limit_on ? msOfDay(forecast.leaves_limit_on) : null;
  const furthest = last + Math.max(60 * 86_400_000, (last - from) / 2);
  const forecastTo = leaves !== null && leaves > last ? Math.min(leaves, furthest) : null;
  return { from, to: forecastTo ?? last, forecastTo };
}

export function pane(wide: number, days: { from: number; to: number }, top: number, bottom: number, low: number, high: number): Pane {
  const span = Math.max(1, days.to - days.from);
  return {
    x: (ms) => tenths(LEFT + ((ms - days.from) / span) * (wide - LEFT - RIGHT)),
    y: (value) => tenths(bottom - ((value - low) / (high - low)) * (bottom - top)),
  };
}

/** How far up and down the errors go, the limit always in sight. */
export function mostError({ limit_K, checks }: ChartAnswer): number {
  return 1.1 * Math.max(limit_K, ...checks.map((one) => Math.abs(one.error_K) + 2 * one.standard_uncertainty_K));
}

/** "M1 2L3 4": a line through points, begun anew where a run begins. */
export function lineOf(points: readonly { x: number; y: number; run: number }[]): string {
  return points.map(({ x, y, run }, at) => `${at === 0 || points[at - 1]?.run !== run ? "M" : "L"}${x} ${y}`).join("");
}
