import { describe, expect, it } from "vitest";
import { fits, inOrder, type ProgramRow } from "./program_rows";

const row = (name: string, more: Partial<ProgramRow> = {}): ProgramRow => ({ name, version: 1, label: "", state: "", at: null, locked: false, ...more });

describe("a program is found", () => {
  const dentine = row("dentine", { materials: ["zirconia-veneer"], stages: ["dentine"], last_used: "2026-11-02T07:00:00Z" });
  const glaze = row("glaze", { materials: ["glaze"], stages: ["glaze"], last_used: "2026-11-20T07:00:00Z" });
  const unknown = row("a-unknown");

  it("by what the piece is made of and the stage of work", () => {
    expect(fits(dentine, { materials: ["zirconia-3y", "zirconia-veneer"], stage: "dentine" })).toBe(true);
    expect(fits(glaze, { materials: ["zirconia-veneer"], stage: "" })).toBe(false);
    expect(fits(dentine, { materials: [], stage: "glaze" })).toBe(false);
  });

  it("even where nothing is known of it, after those that are known to fit", () => {
    expect(fits(unknown, { materials: ["zirconia-veneer"], stage: "dentine" })).toBe(true);
    expect(inOrder([unknown, dentine], { materials: ["zirconia-veneer"], stage: "" }).map(({ name }) => name)).toEqual(["dentine", "a-unknown"]);
  });

  it("lately used first where nothing is asked for", () => {
    expect(inOrder([unknown, dentine, glaze], { materials: [], stage: "" }).map(({ name }) => name)).toEqual(["glaze", "dentine", "a-unknown"]);
  });
});
