import { afterEach, describe, expect, it } from "vitest";
import { useLabsChoice } from "../../../words/choice";
import type { ChartAnswer } from "./answer";
import { dataOf, lastYear } from "./chart_data";

const check = (at: string, error_K: number, run = 1) => ({ check: at, at, day: at.slice(0, 10), error_K, standard_uncertainty_K: 1, trend_K: 0, trend_half_width_K: 1, sum_high: 0, sum_low: 0, sum_beyond: false, set_aside: false, run });
const chart = (leaves: string | null): ChartAnswer => ({
  outcome: "good", finding: { sentence: "" }, outlook: { sentence: "" }, next: { sentence: "" }, signals: [], limit_K: 7, limit_from: "check a",
  cusum: { h: 3, first_alarm: null }, average_run: 59, runs: [], left_out: [],
  forecast: { error_K: 1, slope_K_per_month: 1, leaves_limit_on: leaves, earliest_on: null },
  checks: [check("2026-01-01T08:00:00Z", 1), check("2026-05-01T08:00:00Z", -8), check("2026-05-01T08:00:00Z", -3, 2)],
});
const second = (at: string) => Date.parse(at) / 1000;

afterEach(() => useLabsChoice({}));

describe("the numbers of a chart", () => {
  it("end with the last check, or with the day it leaves its limit", () => {
    expect(dataOf(chart(null)).ahead).toBeNull();
    expect(dataOf(chart("2026-06-01")).ahead?.to).toBe(second("2026-06-01T12:00:00Z"));
    expect(dataOf(chart("2036-06-01")).ahead?.to).toBeLessThan(second("2026-07-03T00:00:00Z"));
    expect(dataOf(chart("2026-04-01")).ahead).toBeNull();
  });

  it("hold the limit and the widest range, in the reader's unit", async () => {
    expect(dataOf(chart(null)).mostError).toBeCloseTo(11);
    await useLabsChoice({ units: "fahrenheit" });
    expect(dataOf(chart(null)).mostError).toBeCloseTo(19.8);
    expect(dataOf(chart(null)).limit).toBeCloseTo(12.6);
    expect(dataOf(chart(null)).error[1]).toBeCloseTo(-14.4);
  });

  it("begin a line anew with a run, also where two checks stand at one moment", () => {
    expect(dataOf(chart(null)).runs).toEqual([0, 2]);
  });

  it("hold ten years without a call too wide, and the last of them", () => {
    const many = chart(null);
    many.checks = Array.from({ length: 200_000 }, (_, place) => check(new Date(1_500_000_000_000 + place * 1_576_000).toISOString(), 1));
    const data = dataOf(many);
    expect(data.at).toHaveLength(200_000);
    expect(lastYear(data).max - lastYear(data).min).toBeCloseTo(369.25 * 86_400, 0);
  });
});
