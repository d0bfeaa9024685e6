import { expect, test } from "vitest";
import { useLabsChoice } from "../../../words/choice";
import { NOTHING_RECORDED, readingsIn, recordBody, STEPS, unitOf } from "./record_steps";

test("lines of two numbers are seconds and the gauge's unit; others stay as they were typed", () => {
  expect(readingsIn("0 950\n\n30, 300\n 60 s, 12 % \n", "mbar")).toEqual(["0 s, 950 mbar", "30 s, 300 mbar", "60 s, 12 %"]);
});

test("a comma within a number is a decimal mark, as a German technician notes it", () => {
  expect(readingsIn("0 970,5\n0,5 950,25\n1,5; 900\n30, 300,5\n30,300", "mbar")).toEqual(["0 s, 970,5 mbar", "0,5 s, 950,25 mbar", "1,5 s, 900 mbar", "30 s, 300,5 mbar", "30 s, 300 mbar"]);
});

test("two numbers of a gauge are of the unit that was chosen, of a gauge in percent of that", () => {
  const step = STEPS.vacuum.find((each) => each.of === "record");
  if (step?.of !== "record") throw new Error("a record is asked for");
  expect(unitOf(step, NOTHING_RECORDED)).toBe("mbar");
  const percent = { ...NOTHING_RECORDED, answers: { "vacuum.gauge": "percent of ambient" }, lines: { pump_down: "0 0\n10 62" } };
  expect(recordBody(percent, "vacuum", null)["pump_down"]).toEqual(["0 s, 0 %", "10 s, 62 %"]);
  expect(recordBody({ ...percent, typed: { gauge_unit: "mmHg" } }, "vacuum", null)["pump_down"]).toEqual(["0 s, 0 mmHg", "10 s, 62 mmHg"]);
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
