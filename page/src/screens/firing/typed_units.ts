// Values as they are typed: a bare number is read with the unit its field goes by, and that unit is written out, never hidden.
import { asPeopleWrite, asProgramsWrite, type Units } from "../../words";
import type { Kind } from "./steps";

const BARE = /^\s*[+−-]?\d+(?:[.,]\d+)?(?:e[+-]?\d+)?\s*$/;

/** The unit a field goes by; a duration has none, for "5" may be seconds or minutes. */
export function unitOf(kind: Kind, units: Units): string | null {
  switch (kind) {
    case "temperature":
      return units === "celsius" ? "°C" : "°F";
    case "rate":
      return units === "celsius" ? "K/min" : "°F/min";
    case "share":
      return "%";
    case "pressure":
      return "mbar";
    case "duration":
      return null;
  }
}

/** What was typed, with the field's unit after a bare number. */
export function withUnit(text: string, kind: Kind, units: Units): string {
  const unit = unitOf(kind, units);
  return unit !== null && BARE.test(text) ? `${text.trim()} ${unit}` : text.trim();
}

/** Whether a value is written in the other scale than the one the reader chose. */
export function isOfOtherScale(text: string, kind: Kind, units: Units): boolean {
  if (kind === "temperature") return units === "celsius" ? /°?\s*F\s*$/.test(text) : /°\s*C\s*$/.test(text);
  if (kind === "rate") return units === "celsius" ? /F\s*\// .test(text) : /(K|C)\s*\//.test(text);
  return false;
}

const TEMPERATURE = /^([+−-]?\d+(?:[.,]\d+)?)\s*°\s*([CF])$/;
const RATE = /^([+−-]?\d+(?:[.,]\d+)?)\s*(K|°C|°F|F)\/(min|h|s)$/;

function tenths(value: number): string {
  return String(Math.round(value * 10) / 10);
}

function inScale(text: string, units: Units): string {
  const temperature = TEMPERATURE.exec(text.trim());
  if (temperature && (temperature[2] === "C") !== (units === "celsius")) {
    const value = numberOf(text) ?? 0;
    return units === "celsius" ? `${tenths((value - 32) / 1.8)} °C` : `${tenths(value * 1.8 + 32)} °F`;
  }
  const rate = RATE.exec(text.trim());
  if (rate && !rate[2]?.endsWith("F") !== (units === "celsius")) {
    const value = numberOf(text) ?? 0;
    return units === "celsius" ? `${tenths(value / 1.8)} K/${rate[3]}` : `${tenths(value * 1.8)} °F/${rate[3]}`;
  }
  return text;
}

/** Whether a text is a temperature or a rate, which come without a number in SI units. */
export function isOfScale(text: string): boolean {
  return TEMPERATURE.test(text.trim()) || RATE.test(text.trim());
}

/** A kept value as the reader writes it: in the chosen scale, his own way of writing numbers. */
export function shownIn(text: string, units: Units): string {
  return asPeopleWrite(inScale(text, units));
}

/** The number of a text, point or comma, or null. */
export function numberOf(text: string): number | null {
  const found = /^\s*([+-]?\d+(?:\.\d+)?(?:e[+-]?\d+)?)/.exec(asProgramsWrite(text));
  return found?.[1] ? Number(found[1]) : null;
}

/** Whether what a person reads off the furnace is the value that was to be keyed in: "817" and "817 °C" are. */
export function readsTheSame(read: string, wanted: string): boolean {
  const plain = (text: string) => asPeopleWrite(asProgramsWrite(text.toLowerCase())).replace(/\s+/g, "");
  if (plain(read) === plain(wanted)) return true;
  const seconds = secondsOf(wanted);
  if (seconds !== null) return secondsOf(read) === seconds;
  return BARE.test(asProgramsWrite(read)) && numberOf(read) === numberOf(wanted);
}

/** Seconds of "1 min 5 s", "1:05" (minutes and seconds) or "65 s"; null for anything else. */
export function secondsOf(text: string): number | null {
  const clock = /^\s*(?:(\d{1,2}):)?(\d{1,3}):([0-5]\d)\s*$/.exec(text);
  if (clock) return Number(clock[1] ?? 0) * 3600 + Number(clock[2]) * 60 + Number(clock[3]);
  const parts = /^\s*(?:(\d+(?:[.,]\d+)?)\s*h)?\s*(?:(\d+(?:[.,]\d+)?)\s*min)?\s*(?:(\d+(?:[.,]\d+)?)\s*s)?\s*$/.exec(text);
  if (!parts || !(parts[1] || parts[2] || parts[3])) return null;
  const part = (at: number) => Number((parts[at] ?? "0").replace(",", "."));
  return part(1) * 3600 + part(2) * 60 + part(3);
}
