import { expect, test } from "vitest";
import { scanReader, type Key } from "./scanner";

function typed(text: string, gap_ms: number, inField = false): string | null {
  const read = scanReader();
  let found: string | null = null;
  [...text].forEach((key, i) => read({ key, at: i * gap_ms, inField } satisfies Key));
  found = read({ key: "Enter", at: text.length * gap_ms, inField });
  return found;
}

test("a burst that ends with Enter is a scan", () => {
  expect(typed("K-0417", 8)).toBe("K-0417");
});

test("hands are too slow to be one", () => {
  expect(typed("K-0417", 90)).toBeNull();
});

test("what is scanned into a field stays there", () => {
  expect(typed("K-0417", 8, true)).toBeNull();
});

test("a key that repeats while it is held is none", () => {
  expect(typed("ab", 30)).toBeNull();
});

test("what was typed by hand before does not get into the scan", () => {
  const read = scanReader();
  read({ key: "x", at: 0, inField: false });
  [..."K-0417"].forEach((key, i) => read({ key, at: 1000 + i * 5, inField: false }));
  expect(read({ key: "Enter", at: 1035, inField: false })).toBe("K-0417");
});

test("what was typed into a field and left with Tab is no scan, however quick", () => {
  const read = scanReader();
  [..."contact taken"].forEach((key, index) => read({ key, at: index, inField: true }));
  expect(read({ key: "Tab", at: 20, inField: true })).toBeNull();
  expect(read({ key: "Enter", at: 22, inField: false })).toBeNull();
});

test("capital letters of a label come with Shift between them", () => {
  const read = scanReader();
  ["Shift", "K", "-", "0", "4", "Shift", "A"].forEach((key, index) => read({ key, at: index * 3, inField: false }));
  expect(read({ key: "Enter", at: 24, inField: false })).toBe("K-04A");
});
