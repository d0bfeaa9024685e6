import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { words as de } from "../../generated/de";
import { words as en } from "../../generated/en";
import type { FormField } from "../api/types";
import { begun, begunForm, changesInWords, changesOf, countOf, isChanged, labelOfKey, laidOver, several, stands, valuesOf, without, withoutPlace } from "./form_values";
import { show } from "../words/catalogue";

const KEPT = {
  label: "first",
  "heating[1].to": "700 °C",
  "heating[1].hold": "1 min",
  "heating[2].to": "817 °C",
  "vacuum.from": "443 °C",
  "vacuum.level": "57 mbar",
};

const field = (key: string, more: Partial<FormField> = {}): FormField => ({ key, label: `the ${key}`, meaning: "", type: "text", ...more });
const VACUUM = field("vacuum", { type: "group", fields: [field("from", { required: true }), field("to"), field("level", { required: true })] });
const HEATING = field("heating", { type: "list", required: true, at_least: 1, one: "heating stage", fields: [field("to", { required: true }), field("hold")] });

test("what was typed is shown, else the canonical text", () => {
  expect(valuesOf([{ key: "a", typed: "850 °C", text: "850 °C", si: 1123.15 }, { key: "b", typed: "", text: "1 min", si: 60 }])).toEqual({ a: "850 °C", b: "1 min" });
});

describe("numbers", () => {
  beforeEach(() => show("de", de));
  afterEach(() => show("en", en));
  const LOSS = [{ key: "loss", typed: "1e-05 /s", text: "1e-05 /s", si: 1e-5 }, { key: "note", typed: "about 1e-05", text: "about 1e-05", si: null }];

  test("are written as people write them, and no number in a text is touched", () => {
    expect(valuesOf(LOSS)).toEqual({ loss: "0,00001 /s", note: "about 1e-05" });
  });

  test("written in another way are no change", () => {
    expect(changesOf({ loss: "0,00001 /s" }, { loss: "0.00001 /s" })).toEqual({ set: {}, unset: [] });
    expect(changesOf({ loss: "2·10⁻⁷ /s" }, { loss: "2e-7 /s" })).toEqual({ set: {}, unset: [] });
    expect(changesOf({ loss: "0,00001 /s" }, { loss: "0,00002 /s" })).toEqual({ set: { loss: "0,00002 /s" }, unset: [] });
    expect(changesOf({ note: "1,5 and more" }, { note: "1.5 and more" })).toEqual({ set: { note: "1.5 and more" }, unset: [] });
  });
});

describe("a change", () => {
  test("says what is set and what is taken out, and nothing else", () => {
    expect(changesOf(KEPT, { ...KEPT, label: " ", "heating[2].to": "823 °C ", note: "new" })).toEqual({ set: { "heating[2].to": "823 °C", note: "new" }, unset: ["label"] });
    expect(changesOf(KEPT, KEPT)).toEqual({ set: {}, unset: [] });
    expect(isChanged(KEPT, { ...KEPT, note: "" })).toBe(false);
  });

  test("takes out a whole group, and a single value of it", () => {
    expect(changesOf(KEPT, without(KEPT, "vacuum"))).toEqual({ set: {}, unset: ["vacuum"] });
    expect(changesOf(KEPT, { ...KEPT, "vacuum.level": "" })).toEqual({ set: {}, unset: ["vacuum.level"] });
  });

  test("one taken out of a list moves those behind it up, and the last place goes as a whole", () => {
    const after = withoutPlace(KEPT, "heating", 1);
    expect(after).toMatchObject({ "heating[1].to": "817 °C" });
    expect(countOf(after, "heating")).toBe(1);
    expect(changesOf(KEPT, after)).toEqual({ set: { "heating[1].to": "817 °C" }, unset: ["heating[1].hold", "heating[2]"] });
  });

  test("takes a place out of a list within a list as a whole", () => {
    const before = { "section[1].form": "shell", "section[1].layer[1].material": "zirconia-3y", "section[1].layer[2].material": "veneer", "section[1].layer[2].thickness": "1.1 mm" };
    expect(changesOf(before, withoutPlace(before, "section[1].layer", 2))).toEqual({ set: {}, unset: ["section[1].layer[2]"] });
  });

  test("adds a place past the end", () => {
    expect(changesOf(KEPT, { ...KEPT, "heating[3].to": "839 °C", "heating[3].hold": "" })).toEqual({ set: { "heating[3].to": "839 °C" }, unset: [] });
  });

  test("laid over a newer version leaves what that changed elsewhere", () => {
    const mine = changesOf(KEPT, without({ ...KEPT, label: "mine" }, "vacuum"));
    const over = laidOver({ ...KEPT, "heating[2].to": "823 °C" }, mine);
    expect(over).toMatchObject({ label: "mine", "heating[2].to": "823 °C" });
    expect(stands(over, "vacuum")).toBe(false);
  });

  test("is told in words", () => {
    expect(changesInWords({ hold: "1 min", rate: "5 K/min" }, { hold: "2 min", note: "x" }, (key) => key)).toEqual(["hold: 1 min → 2 min", "rate: 5 K/min → –", "note: – → x"]);
    expect(labelOfKey([VACUUM, HEATING], "heating[2].hold")).toBe("heating stage 2, the hold");
    expect(labelOfKey([VACUUM, HEATING], "vacuum")).toBe("the vacuum");
    expect(labelOfKey([VACUUM, HEATING], "odd.key")).toBe("odd.key");
  });
});

describe("groups and lists", () => {
  test("whose names begin alike are not mixed up", () => {
    expect(countOf({ "heating_more[7].to": "x" }, "heating")).toBe(0);
    expect(stands({ vacuum_level: "57 mbar" }, "vacuum")).toBe(false);
    expect(countOf({ "heating[12].to": "1" }, "heating")).toBe(12);
  });

  test("begin with what they need, or with one field where they need none", () => {
    expect(begun({}, "vacuum", VACUUM.fields ?? [])).toEqual({ "vacuum.from": "", "vacuum.level": "" });
    expect(begun({}, "chamber", [field("room"), field("cold")])).toEqual({ "chamber.room": "" });
    const section = [field("form"), field("layer", { type: "list", at_least: 1, fields: [field("material", { required: true })] })];
    expect(begun({}, "section[1]", section)).toEqual({ "section[1].layer[1].material": "" });
  });

  test("that a document cannot do without are there from the start", () => {
    expect(begunForm([VACUUM, HEATING])).toEqual({ "heating[1].to": "" });
  });
});

test("values with commas are read without blanks and empty places", () => {
  expect(several(" 16, 17,, 36 ")).toEqual(["16", "17", "36"]);
});
