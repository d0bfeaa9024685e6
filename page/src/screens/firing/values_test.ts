import { describe, expect, it } from "vitest";
import { applied, countOf, difference, withEntry, without, withoutEntry, type Values } from "./values";

const base: Values = {
  entry: "431 °C",
  "heating[1].to": "761 °C",
  "heating[1].rate": "61 K/min",
  "heating[2].to": "837 °C",
  "heating[2].rate": "33 K/min",
  "heating[2].hold": "6 min 55 s",
  "vacuum.from": "547 °C",
  "vacuum.level": "63 mbar",
};

describe("values", () => {
  it("says nothing where nothing differs", () => {
    expect(difference(base, { ...base })).toEqual({ set: {}, unset: [] });
  });

  it("sets what is typed and takes out what is gone", () => {
    const { entry: _entry, ...rest } = base;
    expect(difference(base, { ...rest, "heating[1].hold": "1 min" })).toEqual({ set: { "heating[1].hold": "1 min" }, unset: ["entry"] });
  });

  it("takes a whole group out by its own key", () => {
    expect(difference(base, without(base, "vacuum"))).toEqual({ set: {}, unset: ["vacuum"] });
  });

  it("does not take a key for one that only begins alike", () => {
    expect(without({ "vacuum.from": "1", vacuum_level: "2" }, "vacuum")).toEqual({ vacuum_level: "2" });
  });

  it("takes the first of two stages out by moving the second up and dropping the last", () => {
    const now = withoutEntry(base, "heating", 0);
    expect(countOf(now, "heating")).toBe(1);
    expect(now["heating[1].to"]).toBe("837 °C");
    expect(difference(base, now)).toEqual({ set: { "heating[1].to": "837 °C", "heating[1].rate": "33 K/min", "heating[1].hold": "6 min 55 s" }, unset: ["heating[2]"] });
  });

  it("takes several entries out from the last", () => {
    const one = { "a[1].x": "0", "a[2].x": "1", "a[3].x": "2", "a[11].x": "10" };
    expect(difference(one, { "a[1].x": "0" }).unset).toEqual(["a[11]", "a[3]", "a[2]"]);
  });

  it("puts an entry in between and moves the others down", () => {
    const now = withEntry(base, "heating", 1, { to: "800 °C", rate: "40 K/min" });
    expect([now["heating[2].to"], now["heating[3].to"], now["heating[3].hold"], now["heating[2].hold"]]).toEqual(["800 °C", "837 °C", "6 min 55 s", undefined]);
  });

  it("comes back to what was typed when a change is laid over its base", () => {
    const now = withEntry(without(withoutEntry(base, "heating", 0), "vacuum"), "cooling", 0, { to: "500 °C" });
    expect(applied(base, difference(base, now))).toEqual(now);
  });
});
