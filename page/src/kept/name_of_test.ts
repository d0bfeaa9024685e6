import { expect, it } from "vitest";
import { nameOf } from "./name_of";

it("makes a name that files can have", () => {
  expect(nameOf("First dentine firing, 30 K short")).toBe("first-dentine-firing-30-k-short");
  expect(nameOf("  Große Brücke (24–26) ")).toBe("grosse-bruecke-24-26");
  expect(nameOf("Éclat")).toBe("eclat");
  expect(nameOf("—")).toBe("");
  expect(nameOf("a".repeat(59) + "-b")).toBe("a".repeat(59));
});
