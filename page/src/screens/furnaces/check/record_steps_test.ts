import { expect, test } from "vitest";
import { useLabsChoice } from "../../../words/choice";
import { NOTHING_RECORDED, readingsIn, recordBody } from "./record_steps";

test("lines of two numbers are seconds and the gauge's unit; others stay as they were typed", () => {
  expect(readingsIn("0 950\n\n30, 300\n 60 s, 12 % \n", "mbar")).toEqual(["0 s, 950 mbar", "30 s, 300 mbar", "60 s, 12 %"]);
});

test("a request holds lines or a table, and what was answered", () => {
  const recorded = { ...NOTHING_RECORDED, answers: { "vacuum.pump_warm": "yes" }, lines: { pump_down: "0 950", rise: "0 48" }, tables: { rise: "time;pressure" }, cannotBeShut: true };
  expect(recordBody(recorded, "vacuum", null)).toEqual({ answers: { "vacuum.pump_warm": "yes" }, pump_down: ["0 s, 950 mbar"], rise_table: "time;pressure", cannot_be_shut: true });
  expect(recordBody(NOTHING_RECORDED, "heating", "corner-heating")).toEqual({ go_on: "corner-heating" });
});

test("two numbers of a display are of the scale its reader has chosen", () => {
  const recorded = { ...NOTHING_RECORDED, lines: { run: "0 75" } };
  expect(recordBody(recorded, "heating", null)).toEqual({ run: ["0 s, 75 °C"] });
  useLabsChoice({ units: "fahrenheit" });
  expect(recordBody(recorded, "heating", null)).toEqual({ run: ["0 s, 75 °F"] });
  useLabsChoice({});
});
