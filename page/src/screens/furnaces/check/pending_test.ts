import { describe, expect, test } from "vitest";
import type { CheckAnswer } from "./answer";
import { answeredAnew, before, bodyOf, lastReading, NOTHING, type Pending } from "./pending";

const begun: Pending = { ...NOTHING, answers: [{ "wire.metal": "silver" }, { "wire.purity": "99.99 %" }] };

describe("the request of what is pending", () => {
  test("joins the answers of all steps and names the check it goes on from", () => {
    expect(bodyOf(begun, "corner-wire", false)).toEqual({ go_on: "corner-wire", answers: { "wire.metal": "silver", "wire.purity": "99.99 %" } });
    expect(bodyOf(NOTHING, null, false)).toEqual({});
  });

  test("puts each reading into its list", () => {
    const read: Pending = { ...NOTHING, readings: [{ list: "trials", value: { display: "960 °C", melted: "melted" } }, { list: "trials", value: { display: "955 °C", melted: "whole" } }] };
    expect(bodyOf(read, null, false)).toEqual({ trials: [{ display: "960 °C", melted: "melted" }, { display: "955 °C", melted: "whole" }] });
  });

  test("a comparison goes on until that was all", () => {
    expect(bodyOf(NOTHING, null, true)).toEqual({ more_follows: true });
    expect(bodyOf({ ...NOTHING, done: true }, null, true)).toEqual({});
  });
});

describe("a step back", () => {
  test("leaves the answer in its field", () => {
    expect(before(begun)).toEqual({ ...NOTHING, answers: [{ "wire.metal": "silver" }], typed: { "wire.purity": "99.99 %" } });
    expect(before(NOTHING)).toBeNull();
  });

  test("takes the end back first, then readings, then answers", () => {
    const all: Pending = { ...begun, readings: [{ list: "tabs", value: { where: "middle" } }], done: true };
    const first = before(all);
    expect(first).toEqual({ ...all, done: false });
    expect(first && before(first)).toEqual({ ...all, done: false, readings: [] });
  });
});

describe("a question answered anew", () => {
  test("stands in its place among what is pending", () => {
    expect(answeredAnew(begun, { "wire.metal": "silver" }, { "wire.metal": "gold" })).toEqual({ ...NOTHING, answers: [{ "wire.metal": "gold" }, { "wire.purity": "99.99 %" }] });
  });

  test("takes the place of what is kept, in whichever way that was answered", () => {
    const certificate = { "probe.correction": "0.4 K", "probe.certified": "2026-03-17" };
    const anew = answeredAnew(NOTHING, certificate, { "probe.tolerance_class": "1" });
    expect(bodyOf(anew, "corner-probe", true)).toEqual({ go_on: "corner-probe", answers: { "probe.tolerance_class": "1" }, unset: ["probe.correction", "probe.certified"], more_follows: true });
    const back = answeredAnew(anew, { "probe.tolerance_class": "1" }, certificate);
    expect(bodyOf(back, "corner-probe", true)).toMatchObject({ answers: certificate, unset: ["probe.tolerance_class"] });
    expect(bodyOf(anew, null, true).unset).toBeUndefined();
  });
});

test("the last reading is named as a check's file names it", () => {
  const told = (of: string, more: object) => ({ of, ...more }) as unknown as CheckAnswer;
  expect(lastReading(told("temperature", { trials: [] }))).toBeNull();
  expect(lastReading(told("temperature", { trials: [1, 2, 3] }))).toBe("trials[3]");
  expect(lastReading(told("thermocouple", { found: [1] }))).toBe("compared[1]");
  expect(lastReading(told("chamber map", { found: [1, 2] }))).toBe("map[2]");
});
