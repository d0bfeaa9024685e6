import { expect, it } from "vitest";
import { onlySheet, options, type ShelfRow } from "./shelves";

const row = (name: string, stage: string, material: string): ShelfRow => ({ name, stage, material, version: 1, label: "", state: "", at: null, locked: false });
const sheets = [row("a", "dentine", "zirconia-veneer"), row("b", "dentine", "opal"), row("c", "glaze", "zirconia-veneer")];

it("knows the one sheet for a stage of work and a material", () => {
  expect(onlySheet(sheets, "dentine", ["zirconia-3y", "zirconia-veneer"])?.name).toBe("a");
});

it("takes none where two would fit, or none does", () => {
  expect(onlySheet(sheets, "dentine", ["opal", "zirconia-veneer"])).toBe(null);
  expect(onlySheet(sheets, "opaque", ["opal"])).toBe(null);
});

it("keeps a chosen name that is in no list", () => {
  expect(options(sheets, "gone").map(({ value }) => value)).toEqual(["gone", "a", "b", "c"]);
});
