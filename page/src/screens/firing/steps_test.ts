import { expect, it } from "vitest";
import { limitsOf, makersKey, stepsOf } from "./steps";

const program = { entry: "431 °C", "heating[1].to": "700 °C", "heating[2].to": "817 °C", "vacuum.from": "443 °C", "cooling[1].to": "503 °C" };

it("has a row for each step in the order of a firing", () => {
  expect(stepsOf(program).map(({ id }) => id)).toEqual(["standby", "entry", "drying", "closing", "preheat", "heating[1]", "heating[2]", "vacuum_start", "vacuum_end", "cooling[1]", "opening", "unloading"]);
});

it("has no row for a vacuum or a cooling that a program has not", () => {
  expect(stepsOf({ "heating[1].to": "817 °C" }).map(({ name }) => name)).toEqual(["standby", "entry", "drying", "closing", "preheat", "heating", "opening", "unloading"]);
});

it("takes the last heating stages for the same where there are not as many", () => {
  const maker = { "heating[1].to": "820 °C" };
  expect(makersKey("heating[2].to", program, maker)).toBe("heating[1].to");
  expect(makersKey("heating[1].to", program, maker)).toBe(null);
  expect(makersKey("cooling[1].to", program, maker)).toBe(null);
  expect(makersKey("entry", program, maker)).toBe("entry");
});

it("knows which limits of a sheet speak of a value", () => {
  expect(limitsOf("heating[2].to", program)).toEqual(["top_at_least", "top_at_most"]);
  expect(limitsOf("heating[1].to", program)).toEqual([]);
  expect(limitsOf("heating[1].rate", program)).toEqual(["rate_at_least", "rate_at_most"]);
  expect(limitsOf("vacuum.level", program)).toEqual(["vacuum_level_at_most"]);
});
