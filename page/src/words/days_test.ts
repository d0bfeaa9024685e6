import { beforeEach, describe, expect, test } from "vitest";
import { words as de } from "../../generated/de";
import { words as en } from "../../generated/en";
import { show } from "./catalogue";
import { dayInWords, isDay, isMoment, momentInWords, readDay, readMoment, typedDay, typedMoment } from "./days";

beforeEach(() => show("en", en));

describe("a day that is typed", () => {
  test.each(["2026-11-29", "2026-11-29 ", "29.11.2026", "29.11.26", "29. 11. 2026", "29 Nov 2026", "29 november 2026", "29. Nov. 2026", "Nov 29, 2026", "29/11/2026", "11/29/2026"])("%s is the 29th of November", (text) => {
    expect(readDay(text)).toBe("2026-11-29");
  });

  test("months are known in both languages, whichever is shown", () => {
    expect(["3. März 2027", "3 March 2027", "3 Mai 2027", "3 Dez 2027", "3 Dec 2027", "3 Okt. 2027"].map(readDay)).toEqual(["2027-03-03", "2027-03-03", "2027-05-03", "2027-12-03", "2027-12-03", "2027-10-03"]);
  });

  test("strokes that mean two days mean none, and one day where both orders agree", () => {
    expect(readDay("03/04/2027")).toBeNull();
    expect(readDay("04/04/2027")).toBe("2027-04-04");
  });

  test.each(["", "29", "29.11.", "30.02.2027", "2026-13-01", "2026-11-31", "29.11.126", "tomorrow", "29 Xyz 2026", "0.1.2027", "29.11.2026 x"])("%s is none", (text) => {
    expect(readDay(text)).toBeNull();
  });

  test("a leap day is one only in its year", () => {
    expect(readDay("29.2.2028")).toBe("2028-02-29");
    expect(readDay("29.2.2027")).toBeNull();
  });
});

describe("a day that is shown", () => {
  test("is read back as the same day in both languages", () => {
    for (const iso of ["2026-01-02", "2026-05-12", "2026-12-31", "2028-02-29"]) {
      for (const [language, words] of [["en", en], ["de", de]] as const) {
        show(language, words);
        expect(readDay(typedDay(iso))).toBe(iso);
        expect(readMoment(typedMoment(`${iso}T08:05`))).toBe(`${iso}T08:05`);
      }
    }
  });

  test("has its weekday and its month in words", () => {
    expect(typedDay("2026-11-29")).toBe("29 Nov 2026");
    expect(dayInWords("2026-11-29")).toMatch(/^Sunday,? 29 November 2026$/);
    show("de", de);
    expect(typedDay("2026-11-29")).toBe("29.11.2026");
    expect(dayInWords("2026-11-29")).toBe("Sonntag, 29. November 2026");
    expect(momentInWords("2026-11-29T14:30")).toBe("Sonntag, 29. November 2026, 14:30");
  });

  test("stays as it was typed where it is none", () => {
    expect(typedDay("29.1")).toBe("29.1");
    expect(dayInWords("29.1")).toBe("");
    expect(isDay("29.11.2026")).toBe(false);
    expect(isMoment("2026-11-29")).toBe(false);
  });
});

describe("a moment that is typed", () => {
  test.each(["29.11.2026 14:30", "29.11.2026, 14:30 Uhr", "2026-11-29T14:30", "29 Nov 2026 2:30 pm", "Nov 29, 2026, 2:30 PM"])("%s", (text) => {
    expect(readMoment(text)).toBe("2026-11-29T14:30");
  });

  test("midnight and noon by halves of the day", () => {
    expect(readMoment("29.11.2026 12:05 am")).toBe("2026-11-29T00:05");
    expect(readMoment("29.11.2026 12:05 pm")).toBe("2026-11-29T12:05");
  });

  test.each(["29.11.2026", "14:30", "29.11.2026 24:30", "29.11.2026 14:60", "29.11.2026 14:30 pm", "31.11.2026 14:30"])("%s is none", (text) => {
    expect(readMoment(text)).toBeNull();
  });
});
