import { afterEach, beforeEach, expect, test } from "vitest";
import { words as de } from "../../generated/de";
import { words as en } from "../../generated/en";
import { show } from "../words/catalogue";
import { useLabsChoice } from "../words/choice";
import { quantityText } from "./quantity";

beforeEach(() => show("en", en));
afterEach(() => useLabsChoice({}));

test("a value is told as it was typed, and what is no quantity as it is kept", () => {
  expect(quantityText({ typed: "187 m", text: "187000 mm", si: 187 }, "a length")).toBe("187 m");
  expect(quantityText({ typed: "", text: "817 °C", si: 1090.15 }, "a temperature")).toBe("817 °C");
  expect(quantityText({ typed: "1.2", text: "1.2", si: null }, "a text")).toBe("1.2");
});

test("to a reader of Celsius what was typed in Fahrenheit is told in Celsius", () => {
  expect(quantityText({ typed: "1502.6 °F", text: "817 °C", si: 1090.15 }, "a temperature")).toBe("817 °C");
});

test("in German with a decimal comma, and no number in a text is touched", () => {
  show("de", de);
  expect(quantityText({ typed: "0.59 L", text: "0.59 l", si: 0.00059 }, "a volume")).toBe("0,59 L");
  expect(quantityText({ typed: "Silberdraht 0.37 mm", text: "Silberdraht 0.37 mm", si: null }, "a text")).toBe("Silberdraht 0.37 mm");
});

test("a point, a difference and a rate in Fahrenheit", async () => {
  await useLabsChoice({ units: "fahrenheit" });
  expect(quantityText({ typed: "817 °C", text: "817 °C", si: 1090.15 }, "a temperature")).toBe("1,502.6 °F");
  expect(quantityText({ typed: "12 K", text: "12 K", si: 12 }, "a temperature difference")).toBe("21.6 °F");
  expect(quantityText({ typed: "47 K/min", text: "47 K/min", si: 47 / 60 }, "a heating rate")).toBe("84.6 °F/min");
  expect(quantityText({ typed: "57 mbar", text: "57 mbar", si: 5700 }, "a pressure")).toBe("57 mbar");
});

test("a number in a unit that has no kind of its own is written as people do", () => {
  expect(quantityText({ typed: "370 W/(m2 K)", text: "370 W/(m2 K)", si: null }, "a number in W/(m2 K)")).toBe("370 W/(m² K)");
  expect(quantityText({ typed: "9.2e-06 /K", text: "9.2e-06 /K", si: null }, "a number in /K")).toBe("9.2·10⁻⁶ /K");
});
