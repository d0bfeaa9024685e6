import { beforeEach, describe, expect, test } from "vitest";
import { differences, flattened, gaps } from "../../build/words.mjs";
import { counted, language, show, t } from "./catalogue";
import { words as de } from "../../generated/de";
import { words as en } from "../../generated/en";
import { asPeopleWrite, asProgramsWrite, asTold, bytes, clock, day, isQuantity, leadOf, moment, number, sameDay } from "./numbers";

describe("the words in both languages", () => {
  test("a key that one language lacks is named", () => {
    expect(differences({ "a.b": "x" }, {})).toEqual(["a.b is missing in de."]);
    expect(differences({}, { "a.b": "x" })).toEqual(["a.b is missing in en."]);
  });

  test("gaps and plural forms must agree, and nothing may be empty", () => {
    expect(differences({ "a.b": "since {at}" }, { "a.b": "seit {zeit}" })).toEqual(["a.b has the gaps {at} in en and {zeit} in de."]);
    expect(differences({ "a.b": { one: "x", other: "y" } }, { "a.b": "x" })).toContain("a.b has plural forms in one language only.");
    expect(differences({ "a.b": " " }, { "a.b": "x" })).toEqual(["a.b is empty."]);
  });

  test("tables become keys with dots, plural forms stay together", () => {
    expect(flattened({ title: "T", rows: { one: "1", other: "n" }, inner: { deep: "D" } }, "s")).toEqual({ "s.title": "T", "s.rows": { one: "1", other: "n" }, "s.inner.deep": "D" });
    expect(() => flattened({ Title: "T" }, "s")).toThrow("s.Title: a key is lower case with underscores.");
    expect(() => flattened({ title: 3 }, "s")).toThrow("s.title is neither a sentence nor a table.");
    expect(gaps({ one: "{b} {a}", other: "{a}" })).toEqual(["a", "b"]);
  });

  test("no German sentence is the English one, but for words that both share", () => {
    const own = (entry: unknown) => (typeof entry === "string" ? entry.replace(/\{[a-z_]+\}|Heatwork/g, "").trim() : "");
    const same = Object.keys(en).filter((key) => own(en[key]).length > 12 && en[key] === de[key]);
    expect(same).toEqual([]);
  });
});

describe("a sentence", () => {
  beforeEach(() => show("en", en));

  test("has its gaps filled", () => {
    expect(t("parts.version", { version: 3 })).toBe("version 3");
  });

  test("has the form that goes with its number", () => {
    expect(counted("parts.mistakes", 1)).toBe("One thing needs another look.");
    expect(counted("parts.mistakes", 2)).toBe("2 things need another look.");
    show("de", de);
    expect(language()).toBe("de");
    expect(counted("parts.mistakes", 2)).toBe("2 Angaben stimmen noch nicht.");
  });
});

describe("numbers, days and moments", () => {
  test("are written as the language does", () => {
    show("de", de);
    expect(number(1234.5, 1)).toBe("1.234,5");
    expect(bytes(213_000)).toBe("213 kB");
    expect(bytes(2_130_000)).toBe("2,1 MB");
    expect(day("2026-12-03")).toBe("Do., 3. Dez. 2026");
    show("en", en);
    expect(number(1234.5, 1)).toBe("1,234.5");
    expect(day("2026-12-03")).toBe("Thu, 3 Dec 2026");
    expect(day("soon")).toBe("soon");
  });

  test("of a quantity never have an exponent, and keep their digits", () => {
    show("en", en);
    expect(asPeopleWrite("1e-05 /s")).toBe("0.00001 /s");
    expect(asPeopleWrite("1e-7 /s to 2.50e-7 /s")).toBe("10⁻⁷ /s to 2.5·10⁻⁷ /s");
    expect(asPeopleWrite("4e+06 Pa")).toBe("4000000 Pa");
    expect(asPeopleWrite("1.5e12")).toBe("1.5·10¹²");
    expect(asPeopleWrite("118 mm2, 5300 J/(m2 K), 2 cm3")).toBe("118 mm², 5300 J/(m² K), 2 cm³");
    expect(asPeopleWrite("block1e5 3 e")).toBe("block1e5 3 e");
    show("de", de);
    expect(asPeopleWrite("1.2e-05 /s")).toBe("0,000012 /s");
    expect(asPeopleWrite("2.5e-7 /s")).toBe("2,5·10⁻⁷ /s");
    expect(asPeopleWrite("1.125 mm, 0.125 mm")).toBe("1.125 mm, 0,125 mm");
  });

  test("of a quantity are read back as they are written", () => {
    show("de", de);
    for (const written of ["10⁻⁷ /s", "2,5·10⁻⁷ /s", "0,00001 /s", "1,5·10¹²"]) expect(asPeopleWrite(asProgramsWrite(written))).toBe(written);
    expect(asProgramsWrite("2 x 10^-7 /s")).toBe("2e-7 /s");
    expect(asProgramsWrite("10 mm²")).toBe("10 mm²");
  });

  test("a sentence of the server has the reader's days and a minus", () => {
    show("en", en);
    expect(asTold("Since 2026-11-17 it is off by -4.0 K (-38 to 35); firing-2026-11-17 stays.")).toBe("Since 17 Nov 2026 it is off by −4.0\u00a0K (−38 to 35); firing-2026-11-17 stays.");
    show("de", de);
    expect(asTold("Seit 2026-11-17")).toBe("Seit 17. Nov. 2026");
  });

  test("a quantity is one number and its unit", () => {
    for (const text of ["0,00001 /s", "2·10⁻⁷ /s", "370 W/(m2 K)", "118 mm²", "12", "1e-05 /K", "-4.0 K"]) expect(isQuantity(text), text).toBe(true);
    for (const text of ["1 min 30 s", "1.5 mm thick", "16, 17", "", "crown-16", "2026-11-17"]) expect(isQuantity(text), text).toBe(false);
  });

  test("the first sentence stands before the rest", () => {
    expect(leadOf("Crown-46 (thick): 12 MPa at least. On the way 25 MPa.")).toEqual(["Crown-46 (thick): 12 MPa at least.", "On the way 25 MPa."]);
    expect(leadOf("Dry at 4.27 min, as wanted.")).toEqual(["Dry at 4.27 min, as wanted.", ""]);
    expect(leadOf("Der Zug ist 25 MPa. Je nachdem")).toEqual(["Der Zug ist 25 MPa.", "Je nachdem"]);
    expect(leadOf("Am 17. Nov. war es gut.")).toEqual(["Am 17. Nov. war es gut.", ""]);
  });

  test("stand in the zone of the lab", () => {
    show("de", de);
    expect(clock("2026-11-28T19:05:00Z", "Europe/Berlin")).toBe("20:05");
    expect(moment("2026-11-28T23:30:00Z", "Europe/Berlin")).toContain("29. Nov.");
    expect(sameDay("2026-11-28T22:30:00Z", "2026-11-28T23:30:00Z", "Europe/Berlin")).toBe(false);
    expect(sameDay("2026-11-28T22:30:00Z", "2026-11-28T23:30:00Z", "Etc/UTC")).toBe(true);
    expect(clock("2026-11-28T19:05:00Z", "No/Where")).toBe("19:05 UTC");
  });
});
