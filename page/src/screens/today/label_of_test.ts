import { expect, test } from "vitest";
import type { FormField } from "../../api/client";
import { labelOf } from "./start_dialog";

const field = (key: string, label: string, more: Partial<FormField> = {}): FormField => ({ key, label, meaning: "", type: "text", ...more });
const FIELDS = [
  field("entry", "Entry temperature"),
  field("heating", "Heating stages", { type: "list", one: "heating stage", fields: [field("to", "Heat to")] }),
  field("vacuum", "Vacuum", { type: "group", fields: [field("from", "Vacuum from"), field("level", "Pressure")] }),
];

test("a key is told by the labels of its form", () => {
  expect(labelOf(FIELDS, "entry")).toBe("Entry temperature");
  expect(labelOf(FIELDS, "heating[2].to")).toBe("Heating stage 2: Heat to");
  expect(labelOf(FIELDS, "vacuum.level")).toBe("Vacuum: Pressure");
});

test("a group is not said twice", () => {
  expect(labelOf(FIELDS, "vacuum.from")).toBe("Vacuum from");
});

test("a key that the form does not know stays a key", () => {
  expect(labelOf(FIELDS, "new_thing")).toBe("new_thing");
  expect(labelOf([], "heating[1].to")).toBe("heating[1].to");
});
