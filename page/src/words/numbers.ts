// Numbers, days and moments as the reader writes them.
import { language } from "./catalogue";

/** The language with the reader's own region where his browser names one: dates of the place he works in. */
export function locale(): string {
  const now = language();
  const asked = typeof navigator === "undefined" ? [] : navigator.languages;
  return asked.find((one) => one.startsWith(`${now}-`)) ?? (now === "de" ? "de-DE" : "en-GB");
}

export function number(value: number, digits?: number): string {
  return new Intl.NumberFormat(locale(), digits === undefined ? {} : { minimumFractionDigits: digits, maximumFractionDigits: digits }).format(value);
}

/** A day "2026-11-28" without a zone; what is no day is shown as it is. */
export function day(text: string): string {
  const found = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text);
  if (!found) return text;
  const date = new Date(Date.UTC(Number(found[1]), Number(found[2]) - 1, Number(found[3])));
  return new Intl.DateTimeFormat(locale(), { weekday: "short", day: "numeric", month: "short", year: "numeric", timeZone: "UTC" }).format(date);
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
