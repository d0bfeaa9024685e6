import { describe, expect, it } from "vitest";
import type { ChartAnswer } from "./answer";
import { daysOf, lineOf, mostError, msOfDay, pane } from "./chart_scale";

const check = (at: string, error_K: number) => ({ check: at, at, day: at.slice(0, 10), error_K, standard_uncertainty_K: 1, trend_K: 0, trend_half_width_K: 1, sum_high: 0, sum_low: 0, sum_beyond: false, set_aside: false, run: 1 });
const chart = (leaves: string | null): ChartAnswer => ({
  outcome: "good", finding: { sentence: "" }, outlook: { sentence: "" }, next: { sentence: "" }, signals: [], limit_K: 7, limit_from: "check a",
  cusum: { h: 3, first_alarm: null }, average_run: 59, runs: [], left_out: [],
  forecast: { error_K: 1, slope_K_per_month: 1, leaves_limit_on: leaves, earliest_on: null },
  checks: [check("2026-01-01T08:00:00Z", 1), check("2026-05-01T08:00:00Z", -8)],
});

describe("what a chart spans", () => {
  it("ends with the last check, or with the day it leaves its limit", () => {
    expect(daysOf(chart(null)).forecastTo).toBeNull();
    expect(daysOf(chart("2026-06-01")).to).toBe(msOfDay("2026-06-01"));
    expect(daysOf(chart("2036-06-01")).to).toBeLessThan(msOfDay("2026-07-03"));
  });

  it("holds the limit of the lab and the widest error", () => {
    expect(mostError(chart(null))).toBeCloseTo(11);
  });

  it("puts the first day left and the greatest value on top", () => {
    const { x, y } = pane(640, { from: 0, to: 100 }, 20, 200, -10, 10);
    expect([x(0), x(100), y(10), y(-10)]).toEqual([62, 626, 20, 200]);
  });

  it("begins a line anew with a run", () => {
    expect(lineOf([{ x: 1, y: 2, run: 1 }, { x: 3, y: 4, run: 1 }, { x: 5, y: 6, run: 2 }])).toBe("M1 2L3 4M5 6");
  });
});
