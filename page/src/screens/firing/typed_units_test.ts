import { expect, it } from "vitest";
import { words as de } from "../../../generated/de";
import { words as en } from "../../../generated/en";
import { show } from "../../words/catalogue";
import { isOfOtherScale, readsTheSame, secondsOf, shownIn, withUnit } from "./typed_units";

it("writes the unit of its field after a bare number, and leaves all else", () => {
  expect(withUnit("830", "temperature", "celsius")).toBe("830 °C");
  expect(withUnit(" 1526 ", "temperature", "fahrenheit")).toBe("1526 °F");
  expect(withUnit("0,5", "pressure", "celsius")).toBe("0,5 mbar");
  expect(withUnit("830 °F", "temperature", "celsius")).toBe("830 °F");
  expect(withUnit("83x", "temperature", "celsius")).toBe("83x");
});

it("never guesses the unit of a duration", () => {
  expect(withUnit("5", "duration", "celsius")).toBe("5");
});

it("knows a value of the other scale", () => {
  expect(isOfOtherScale("817 °C", "temperature", "fahrenheit")).toBe(true);
  expect(isOfOtherScale("817 °C", "temperature", "celsius")).toBe(false);
  expect(isOfOtherScale("47 K/min", "rate", "fahrenheit")).toBe(true);
  expect(isOfOtherScale("12 K", "temperature", "fahrenheit")).toBe(false);
});

it("shows a value in the scale and with the mark the reader chose", () => {
  expect(shownIn("817 °C", "fahrenheit")).toBe("1502.6 °F");
  expect(shownIn("47 K/min", "fahrenheit")).toBe("84.6 °F/min");
  expect(shownIn("1562 °F", "celsius")).toBe("850 °C");
  expect(shownIn("5 min 20 s", "fahrenheit")).toBe("5 min 20 s");
  show("de", de);
  expect(shownIn("0.7 mm", "celsius")).toBe("0,7 mm");
  expect(shownIn("1.125 mm", "celsius")).toBe("1.125 mm");
  expect(shownIn("1e-05 /s", "celsius")).toBe("0,00001 /s");
  show("en", en);
});

it("reads back what a furnace shows as it shows it", () => {
  expect(readsTheSame("817", "817 °C")).toBe(true);
  expect(readsTheSame("817 °c", "817 °C")).toBe(true);
  expect(readsTheSame("871", "817 °C")).toBe(false);
  expect(readsTheSame("1:05", "1 min 5 s")).toBe(true);
  expect(readsTheSame("65 s", "1 min 5 s")).toBe(true);
  expect(readsTheSame("1", "1 min 5 s")).toBe(false);
  expect(readsTheSame("817 °F", "817 °C")).toBe(false);
});

it("reads back a very small number however it is keyed in", () => {
  expect(readsTheSame("2e-7", "2·10⁻⁷ /s")).toBe(true);
  expect(readsTheSame("2*10^-7 /s", "2·10⁻⁷ /s")).toBe(true);
  expect(readsTheSame("0.00001", "0,00001 /s")).toBe(true);
  expect(readsTheSame("3e-7", "2·10⁻⁷ /s")).toBe(false);
});

it("counts the seconds of a duration", () => {
  expect([secondsOf("1 min 5 s"), secondsOf("2:25"), secondsOf("1 h"), secondsOf("0,5 min"), secondsOf("")]).toEqual([65, 145, 3600, 30, null]);
});
