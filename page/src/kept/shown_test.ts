import { describe, expect, it } from "vitest";
import type { DocumentValue, FormField } from "../api/types";
import { sections } from "./shown";

const plain = (key: string): FormField => ({ key, label: `the ${key}`, meaning: "", type: "text" });
const FIELDS: FormField[] = [
  plain("name"),
  plain("entry"),
  { ...plain("heating"), type: "list", one: "heating stage", fields: [plain("to"), plain("rate"), plain("hold")] },
  { ...plain("vacuum"), type: "group", fields: [plain("from"), plain("level")] },
  { ...plain("section"), type: "list", one: "section", fields: [plain("form"), { ...plain("layer"), type: "list", one: "layer", fields: [plain("material")] }] },
];
const values = (all: Record<string, string>): DocumentValue[] => Object.entries(all).map(([key, text]) => ({ key, typed: text, text, si: null }));

describe("sections of a kept document", () => {
  it("follow the form, whatever the order of the values", () => {
    const found = sections(FIELDS, values({ "vacuum.level": "57 mbar", name: "glaze", entry: "431 °C" }));
    expect(found.map((section) => section.title)).toEqual([null, "the vacuum"]);
    expect(found[0]).toMatchObject({ kind: "values", values: [{ value: { text: "431 °C" } }] });
  });

  it("set a list out in rows, with columns for what is there and gaps where one lacks it", () => {
    const found = sections(FIELDS, values({ "heating[1].to": "617 °C", "heating[1].hold": "13 s", "heating[2].to": "817 °C" }));
    expect(found).toHaveLength(1);
    const [rows] = found;
    if (rows?.kind !== "rows") throw new Error("no rows");
    expect(rows.fields.map((field) => field.key)).toEqual(["to", "hold"]);
    expect(rows.rows.map((row) => row.map((cell) => cell?.value.text ?? null))).toEqual([["617 °C", "13 s"], ["817 °C", null]]);
  });

  it("give items with tables in them a section each", () => {
    const found = sections(FIELDS, values({ "section[1].form": "shell", "section[1].layer[1].material": "zirconia-3y" }));
    expect(found.map((section) => section.title)).toEqual(["section 1", "section 1, the layer"]);
  });

  it("are none where nothing stands", () => {
    expect(sections(FIELDS, values({ name: "glaze" }))).toEqual([]);
  });
});
