import { describe, expect, it } from "vitest";
import { askedFiring, changedDocuments, isWhole, nextName, typedInto, type Bench } from "./bench";

const kept: Bench = {
  kept: "firing",
  base: {
    firing: { stage: "dentine", tray: "light", furnace: "corner", program: "dentine", "piece[1].piece": "crown-16", "piece[1].place": "between" },
    "program dentine": { entry: "431 °C", "heating[1].to": "817 °C" },
    "program other": { entry: "400 °C" },
    "piece crown-16": { "section[1].layer[1].thickness": "1.9 mm" },
  },
  typed: {},
  versions: { firing: 3, "program dentine": 2, "piece crown-16": 1 },
};

describe("the bench", () => {
  it("asks for a kept firing as it is", () => {
    expect(askedFiring(kept)).toEqual({ firing: "firing", set: {}, unset: {}, from: {} });
  });

  it("asks with what was typed over the documents it takes, the program as its own", () => {
    let bench = kept;
    bench = { ...bench, typed: typedInto(bench, "program dentine", { entry: "441 °C" }) };
    bench = { ...bench, typed: typedInto(bench, "piece crown-16", { "section[1].layer[1].thickness": "2 mm" }) };
    expect(askedFiring(bench)).toEqual({
      firing: "firing",
      set: { program: { entry: "441 °C" }, "piece crown-16": { "section[1].layer[1].thickness": "2 mm" } },
      unset: { program: ["heating[1]"] },
      from: { program: 2, "piece crown-16": 1 },
    });
  });

  it("keeps what was typed into a program that is not taken, and does not send it", () => {
    let bench: Bench = { ...kept, typed: typedInto(kept, "program dentine", { entry: "441 °C", "heating[1].to": "817 °C" }) };
    bench = { ...bench, typed: typedInto(bench, "firing", { ...kept.base["firing"], program: "other" }) };
    expect(askedFiring(bench)).toEqual({ firing: "firing", set: { firing: { program: "other" } }, unset: {}, from: { firing: 3 } });
    expect(changedDocuments(bench)).toEqual(["firing"]);
  });

  it("knows no change where a value is typed back", () => {
    const once = typedInto(kept, "program dentine", { entry: "441 °C", "heating[1].to": "817 °C" });
    expect(typedInto({ ...kept, typed: once }, "program dentine", { entry: "431 °C", "heating[1].to": "817 °C" })).toEqual({});
  });

  it("puts a new firing together of names", () => {
    const bench: Bench = { kept: null, base: { firing: {} }, typed: { firing: { ...kept.base["firing"], "chamber.cold": "true" } }, versions: {} };
    expect(isWhole(bench)).toBe(true);
    expect(askedFiring(bench)).toEqual({
      new: { stage: "dentine", pieces: [{ piece: "crown-16", place: "between" }], tray: "light", furnace: "corner", program: "dentine", chamber: { cold: "true" } },
      set: {},
      unset: {},
      from: {},
    });
  });

  it("is not whole while a name is missing", () => {
    expect(isWhole({ kept: null, base: { firing: {} }, typed: { firing: { stage: "dentine" } }, versions: {} })).toBe(false);
  });

  it("counts names on", () => {
    expect([nextName("dentine"), nextName("dentine-2"), nextName("dentine-9")]).toEqual(["dentine-2", "dentine-3", "dentine-10"]);
  });
});
