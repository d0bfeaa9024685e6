// Numbers, days and moments as the reader writes them.
import { language } from "./catalogue";

/** The language with the reader's own region where his browser names one: dates of the place he works in. */
export function locale(): string {
  const now = language();
  const asked = typeof navigator === "undefined" ? [] : navigator.languages;
  return asked.find((one) => one.startsWith(`${now}-`)) ?? (now === "de" ? "de-DE" : "en-GB");
}

const MINUS = "−";

export function number(value: number, digits?: number): string {
  return new Intl.NumberFormat(locale(), digits === undefined ? {} : { minimumFractionDigits: digits, maximumFractionDigits: digits }).format(value).replace(/^-/, MINUS);
}

const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹";
const AS_PROGRAMS_WRITE = /(?<![\w.,])(\d+)(?:\.(\d+))?e([+-]?\d{1,3})(?!\w)/gi;
const SQUARE_OR_CUBE = /(?<=[\s(/])((?:k|c|m|µ)?m)([23])(?!\w)/g;
const SMALLEST_POWER = -5;
const LARGEST_POWER = 11;

function raised(power: number): string {
  return (power < 0 ? "⁻" : "") + [...String(Math.abs(power))].map((digit) => RAISED[Number(digit)]).join("");
}

/** The digits of "2.5e-7" as people write them: "0.00001", and with a power of ten where that is too long, "2.5·10⁻⁷". */
function withoutExponent(whole: string, part: string, exponent: number): string {
  const all = whole + part;
  const digits = all.replace(/^0+/, "").replace(/0+$/, "");
  if (digits === "") return "0";
  const power = whole.length + exponent - 1 - (all.length - all.replace(/^0+/, "").length);
  const pointed = (before: string, after: string) => (after === "" ? before : `${before}.${after}`);
  if (power < SMALLEST_POWER || power > LARGEST_POWER) return `${digits === "1" ? "" : `${pointed(digits.slice(0, 1), digits.slice(1))}·`}10${raised(power)}`;
  if (power < 0) return `0.${"0".repeat(-power - 1)}${digits}`;
  return pointed(digits.slice(0, power + 1).padEnd(power + 1, "0"), digits.slice(power + 1));
}

/** A quantity as people write it, "1e-05 /s" as "0.00001 /s", with the reader's decimal mark; the same digits, read back to the same value. */
export function asPeopleWrite(text: string): string {
  const plain = text.replace(SQUARE_OR_CUBE, (_, unit: string, power: string) => unit + RAISED[Number(power)]).replace(AS_PROGRAMS_WRITE, (_, whole: string, part: string | undefined, exponent: string) => withoutExponent(whole, part ?? "", Number(exponent)));
  // Three digits behind a comma may be thousands: those keep their point.
  return language() === "de" ? plain.replace(/(\d)\.(\d+)/g, (found, before: string, after: string) => (after.length === 3 && before !== "0" ? found : `${before},${after}`)) : plain;
}

const QUANTITY = /^[+-]?\d+(?:\.\d+)?(?:e[+-]?\d+)?(?:\s?[^\s\d.,;-]{1,2}\S{0,10}(?:\s[A-Z]\))?)?$/;

/** Whether a text is one number and at most its unit, "0,00001 /s" or "370 W/(m2 K)", and no words. */
export function isQuantity(text: string): boolean {
  return QUANTITY.test(asProgramsWrite(text.trim()));
}

/** A number and its unit, and a sign and its number, stay on one line. */
export function unbroken(text: string): string {
  return text.replace(/(\d) (?=(?:[Ks%VLh]|°[CF]|min|mm|µm|(?:m|h|k|M)?(?:bar|Pa)|mmHg|inHg)(?![\w]))/g, "$1\u00a0").replace(/± (?=\d)/g, "±\u00a0");
}

/** A sentence of the server for the eye: its days as the reader writes them, a minus as a minus, no number parted from its unit. */
export function asTold(sentence: string): string {
  return unbroken(sentence.replace(/(?<![\w-])(\d{4}-\d\d-\d\d)(?![\w-])/g, (iso) => dayInText(iso)).replace(/(^|[\s(])-(?=\d)/g, `$1${MINUS}`));
}

/** The first sentence of several, and the rest. */
export function leadOf(told: string): [string, string] {
  const at = /(?<=[a-zäöüß)°%A-Z]{2}|[)%])[.] (?=[A-ZÄÖÜ„“])/.exec(told)?.index;
  return at === undefined ? [told, ""] : [told.slice(0, at + 1), told.slice(at + 2)];
}

/** A quantity the other way round, for comparing: "0,00001 /s" and "10⁻⁵ /s" as "1e-5"-like numbers with a point. */
export function asProgramsWrite(text: string): string {
  return text
    .replace(/[−⁻]/g, "-")
    .replace(/[⁰¹²³⁴⁵⁶⁷⁸⁹]+/g, (power, at: number, whole: string) => (/10-?$/.test(whole.slice(0, at)) ? [...power].map((digit) => RAISED.indexOf(digit)).join("") : power))
    .replace(/(\d)\s*[·×*x]\s*10\^?(-?\d+)/g, "$1e$2")
    .replace(/(^|[^\d.,])10(?:\^(-?\d+)|(-\d+))/g, (_, before: string, one?: string, other?: string) => `${before}1e${one ?? other}`)
    .replace(/(\d),(\d)/g, "$1.$2");
}

/** A day "2026-11-28" without a zone; what is no day is shown as it is. */
export function day(text: string): string {
  const found = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text);
  if (!found) return text;
  const date = new Date(Date.UTC(Number(found[1]), Number(found[2]) - 1, Number(found[3])));
  return new Intl.DateTimeFormat(locale(), { weekday: "short", day: "numeric", month: "short", year: "numeric", timeZone: "UTC" }).format(date);
}

function dayInText(text: string): string {
  const date = new Date(`${text}T00:00:00Z`);
  return Number.isNaN(date.getTime()) ? text : new Intl.DateTimeFormat(locale(), { day: "numeric", month: "short", year: "numeric", timeZone: "UTC" }).format(date);
}

function moments(text: string, zone: string | undefined, options: Intl.DateTimeFormatOptions): string {
  const date = new Date(text);
  if (Number.isNaN(date.getTime())) return text;
  try {
    return new Intl.DateTimeFormat(locale(), { ...options, ...(zone ? { timeZone: zone } : {}) }).format(date);
  } catch {
    return new Intl.DateTimeFormat(locale(), { ...options, timeZone: "UTC", timeZoneName: "short" }).format(date);
  }
}

/** A moment in the zone of the lab, with its day. */
export function moment(text: string, zone?: string): string {
  return moments(text, zone, { weekday: "short", day: "numeric", month: "short", hour: "numeric", minute: "2-digit" });
}

/** A moment with its year, for records. */
export function momentInFull(text: string, zone?: string): string {
  return moments(text, zone, { day: "numeric", month: "short", year: "numeric", hour: "numeric", minute: "2-digit" });
}

export function clock(text: string, zone?: string): string {
  return moments(text, zone, { hour: "numeric", minute: "2-digit" });
}

/** Whether two moments fall on one day of the lab. */
export function sameDay(first: string, second: string, zone?: string): boolean {
  const asDay = (text: string) => moments(text, zone, { day: "numeric", month: "numeric", year: "numeric" });
  return asDay(first) === asDay(second);
}

export function bytes(count: number): string {
  const steps = ["B", "kB", "MB", "GB", "TB"];
  let value = count;
  let step = 0;
  while (value >= 1000 && step < steps.length - 1) {
    value /= 1000;
    step += 1;
  }
  return `${number(value, step > 0 && value < 100 ? 1 : 0)} ${steps[step]}`;
}
