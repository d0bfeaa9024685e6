// Temperatures and differences of a check as the reader writes them, and values as they are sent.
import { asPeopleWrite, number, unbroken, units } from "../../../words";

/** "961 °C"; of a display that goes by halves, "961.5 °C". */
export function temperature(C: number, digits = 0): string {
  if (units.value === "fahrenheit") return `${number(C * 1.8 + 32, digits)} °F`;
  return `${number(C, digits === 0 && !Number.isInteger(C) && Number.isInteger(2 * C) ? 1 : digits)} °C`;
}

/** "+4.2 K", "0.0 K": the sign is always said, that of nothing is none. */
export function signedDifference(K: number, digits = 1): string {
  const size = difference(Math.abs(K), digits);
  if (!/[1-9]/.test(size)) return size;
  return `${K > 0 ? "+" : "−"}${size}`;
}

export function difference(K: number, digits = 1): string {
  return unbroken(units.value === "fahrenheit" ? `${number(K * 1.8, digits)} °F` : `${number(K, digits)} K`);
}

/** A temperature as the server reads it, as it was shown. */
export function typedTemperature(C: number): string {
  return units.value === "fahrenheit" ? `${Math.round(C * 1.8 + 32)} °F` : `${Math.round(C * 10) / 10} °C`;
}

export const temperatureUnit = (): string => (units.value === "fahrenheit" ? "°F" : "°C");
export const differenceUnit = (): string => (units.value === "fahrenheit" ? "°F" : "K");

const BARE = /^[+−-]?\d+(?:[.,]\d+)?$/;

/** A bare number gets the unit that stands beside its field; what has one already keeps it. */
export function withUnit(text: string, unit: string): string {
  const typed = text.trim();
  return unit !== "" && BARE.test(typed) ? `${typed.replace("−", "-")} ${unit}` : typed;
}

/** The number and the unit of a value as one would type it: "0.25 mm". */
export function parted(text: string): { number: string; unit: string } {
  const found = /^([+−-]?\d+(?:[.,]\d+)?)\s*(\D*)$/.exec(text.trim());
  return found ? { number: found[1] ?? "", unit: found[2] ?? "" } : { number: text, unit: "" };
}

/** A value as one might type it, in the reader's unit: "800 °C" or "1472 °F". */
export function exampleShown(example: string): string {
  const { number: digits, unit } = parted(example);
  const value = Number(digits.replace(",", "."));
  if (units.value !== "fahrenheit" || !Number.isFinite(value)) return asPeopleWrite(example);
  if (unit === "°C") return typedTemperature(value);
  return unit === "K" ? `${Math.round(18 * value) / 10} °F` : asPeopleWrite(example);
}

/** Units that a value may be typed in, the usual one first. */
export function unitsFor(example: string): readonly string[] {
  const { unit } = parted(example);
  const others: Readonly<Record<string, readonly string[]>> = { min: ["min", "s"], s: ["s", "min"], mbar: ["mbar", "hPa"], hPa: ["hPa", "mbar", "inHg", "mmHg"], "°C": [temperatureUnit()], K: [differenceUnit()] };
  return others[unit] ?? (unit === "" ? [] : [unit]);
}
