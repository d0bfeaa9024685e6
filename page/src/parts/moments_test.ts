import { expect, it } from "vitest";
import { fromLocal, toLocal } from "./moments";

it("a moment goes to the field and back, to the minute", () => {
  expect(fromLocal(toLocal("2026-11-25T17:11:00Z"))).toBe("2026-11-25T17:11:00Z");
  expect(fromLocal("2026-07-01T08:00")).toBe(new Date(2026, 6, 1, 8).toISOString().slice(0, 19) + "Z");
});

it("what is no moment is none", () => {
  expect(toLocal("")).toBe("");
  expect(toLocal("yesterday")).toBe("");
  expect(fromLocal("")).toBe("");
});
