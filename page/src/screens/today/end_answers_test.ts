import { expect, test } from "vitest";
import { endBody, questionsOf } from "./end_answers";

const PIECES = ["crown-16", "bridge-24-26"];

test("a question a piece, then the readings and the whole; what was seen only where it is not as wanted", () => {
  expect(questionsOf(PIECES, { pieces: {}, readings: {} }).map(({ of }) => of)).toEqual(["how", "how", "readings", "summary"]);
  const again = { pieces: { "crown-16": { outcome: "fire again" as const } }, readings: {} };
  expect(questionsOf(PIECES, again)).toEqual([{ of: "how", piece: "crown-16" }, { of: "seen", piece: "crown-16" }, { of: "how", piece: "bridge-24-26" }, { of: "readings" }, { of: "summary" }]);
});

test("only what was answered is sent", () => {
  const answers = { pieces: { "crown-16": { outcome: "fire again" as const, seen: "edges sharp", looked_like: " " } }, readings: { highest_display: "818 °C", hold: "" } };
  expect(endBody(["crown-16"], answers)).toEqual({ pieces: [{ piece: "crown-16", outcome: "fire again", seen: "edges sharp" }], highest_display: "818 °C" });
});
