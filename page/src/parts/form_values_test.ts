import { expect, test } from "vitest";
import { changesInWords, changesOf, countOf, valuesOf, withoutPlace } from "./form_values";

const KEPT = { label: "first", "heating[1].to": "700 °C", "heating[1].hold": "1 min", "heating[2].to": "817 °C" };

test("what was typed is shown, else the canonical text", () => {
  expect(valuesOf([{ key: "a", typed: "850 °C", text: "850 °C", si: 1123.15 }, { key: "b", typed: "", text: "1 min", si: 60 }])).toEqual({ a: "850 °C", b: "1 min" });
});

test("a change says what is set and what is taken out, and nothing else", () => {
  expect(changesOf(KEPT, { ...KEPT, label: " ", "heating[2].to": "823 °C ", note: "new" }, ["heating"])).toEqual({ set: { "heating[2].to": "823 °C", note: "new" }, unset: ["label"] });
  expect(changesOf(KEPT, KEPT, ["heating"])).toEqual({ set: {}, unset: [] });
});

test("one taken out of a list moves those behind it up, and the last place goes as a whole", () => {
  const after = withoutPlace(KEPT, "heating", 1);
  expect(after).toEqual({ label: "first", "heating[1].to": "817 °C" });
  expect(countOf(after, "heating")).toBe(1);
  expect(changesOf(KEPT, after, ["heating"])).toEqual({ set: { "heating[1].to": "817 °C" }, unset: ["heating[2]", "heating[1].hold"] });
});

test("lists whose name begins alike are not mixed up", () => {
  expect(countOf({ "heating_more[7].to": "x" }, "heating")).toBe(0);
});

test("changes are told in words", () => {
  expect(changesInWords({ hold: "1 min", rate: "5 K/min" }, { hold: "2 min", note: "x" }, (key) => key)).toEqual(["hold: 1 min → 2 min", "rate: 5 K/min → –", "note: – → x"]);
});
