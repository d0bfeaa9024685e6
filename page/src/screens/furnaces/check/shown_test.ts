import { beforeEach, describe, expect, test } from "vitest";
import { words as en } from "../../../../generated/en";
import { show } from "../../../words/catalogue";
import { useLabsChoice } from "../../../words/choice";
import { difference, exampleShown, parted, signedDifference, temperature, typedTemperature, unitsFor, withUnit } from "./shown";

beforeEach(() => show("en", en));

describe("what a check shows", () => {
  test("temperatures and differences carry their unit, and a difference its sign", () => {
    expect(temperature(961.4)).toBe("961 °C");
    expect(signedDifference(4.24)).toBe("+4.2\u00a0K");
    expect(signedDifference(-12)).toBe("−12.0\u00a0K");
    expect(signedDifference(-0.02)).toBe("0.0\u00a0K");
    expect(difference(5)).toBe("5.0\u00a0K");
    expect(temperature(961.5)).toBe("961.5 °C");
    expect(typedTemperature(961.5)).toBe("961.5 °C");
  });
});

describe("what is typed", () => {
  test("a bare number gets the unit beside its field", () => {
    expect(withUnit(" 0,25 ", "mm")).toBe("0,25 mm");
    expect(withUnit("−3", "K")).toBe("-3 K");
    expect(withUnit("90 s", "min")).toBe("90 s");
    expect(withUnit("thick", "mm")).toBe("thick");
  });

  test("a value comes apart into number and unit", () => {
    expect(parted("99.99 %")).toEqual({ number: "99.99", unit: "%" });
    expect(parted("warm")).toEqual({ number: "warm", unit: "" });
    expect(unitsFor("2 min")).toEqual(["min", "s"]);
    expect(unitsFor("0.4 K")).toEqual(["K"]);
    expect(unitsFor("words")).toEqual([]);
  });

  test("an example stands in the reader's unit, a difference without the 32", async () => {
    expect(exampleShown("800 °C")).toBe("800 °C");
    await useLabsChoice({ units: "fahrenheit" });
    expect([exampleShown("800 °C"), exampleShown("0.4 K"), exampleShown("2 min"), exampleShown("silver")]).toEqual(["1472 °F", "0.7 °F", "2 min", "silver"]);
    await useLabsChoice({});
  });
});
