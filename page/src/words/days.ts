// Days and clock times as people type them, in either language, and as a field shows them: never to be taken for another day.
import { language } from "./catalogue";
import { locale } from "./numbers";

// The first three letters, as German and English write them.
const MONTHS: readonly (readonly string[])[] = [["jan", "jän"], ["feb"], ["mar", "mär", "mrz"], ["apr"], ["may", "mai"], ["jun"], ["jul"], ["aug"], ["sep"], ["oct", "okt"], ["nov"], ["dec", "dez"]];
const ENGLISH = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
const FIRST_YEAR = 1900;
const LAST_YEAR = 2199;

const two = (value: number) => String(value).padStart(2, "0");

/** "2026-11-29" if there is such a day. */
function whole(year: number, month: number, date: number): string | null {
  if (year < FIRST_YEAR || year > LAST_YEAR) return null;
  const met = new Date(Date.UTC(year, month - 1, date));
  return met.getUTCMonth() === month - 1 && met.getUTCDate() === date ? `${year}-${two(month)}-${two(date)}` : null;
}

/** Two digits of a year are of this century. */
const yearOf = (text: string) => (text.length === 2 ? 2000 + Number(text) : Number(text));
const monthOf = (word: string) => MONTHS.findIndex((each) => each.includes(word.toLowerCase().slice(0, 3))) + 1;

/** With strokes some put the month first: such a day is taken only where the other order gives none, or the same. */
function withStrokes(first: number, second: number, year: number): string | null {
  const one = whole(year, second, first);
  const other = whole(year, first, second);
  return one === null || other === null || one === other ? (one ?? other) : null;
}

/** The day that is meant by "29.11.2026", "29.11.26", "2026-11-29", "29 Nov 2026", "29. November 2026", "Nov 29, 2026"; null: no day, or more than one. */
export function readDay(typed: string): string | null {
  const text = typed.trim();
  const iso = /^(\d{4})-(\d{1,2})-(\d{1,2})$/.exec(text);
  if (iso) return whole(Number(iso[1]), Number(iso[2]), Number(iso[3]));
  const dots = /^(\d{1,2})\s*\.\s*(\d{1,2})\s*\.\s*(\d{4}|\d{2})$/.exec(text);
  if (dots) return whole(yearOf(dots[3]!), Number(dots[2]), Number(dots[1]));
  const strokes = /^(\d{1,2})\/(\d{1,2})\/(\d{4}|\d{2})$/.exec(text);
  if (strokes) return withStrokes(Number(strokes[1]), Number(strokes[2]), yearOf(strokes[3]!));
  const before = /^(\d{1,2})\.?\s*(\p{L}{3,9})\.?,?\s*(\d{4})$/u.exec(text);
  if (before) return whole(Number(before[3]), monthOf(before[2]!), Number(before[1]));
  const after = /^(\p{L}{3,9})\.?\s*(\d{1,2}),?\s+(\d{4})$/u.exec(text);
  return after ? whole(Number(after[3]), monthOf(after[1]!), Number(after[2])) : null;
}

export const isDay = (text: string): boolean => /^\d{4}-\d\d-\d\d$/.test(text) && readDay(text) === text;

/** A day as a field shows it: "29.11.2026", "29 Nov 2026". What is no day stays as it is. */
export function typedDay(iso: string): string {
  if (!isDay(iso)) return iso;
  const [year, month, date] = iso.split("-").map(Number) as [number, number, number];
  return language() === "de" ? `${two(date)}.${two(month)}.${year}` : `${date} ${ENGLISH[month - 1]} ${year}`;
}

/** "Sunday, 29 November 2026"; nothing for what is no day. */
export function dayInWords(iso: string): string {
  if (!isDay(iso)) return "";
  return new Intl.DateTimeFormat(locale(), { weekday: "long", day: "numeric", month: "long", year: "numeric", timeZone: "UTC" }).format(new Date(`${iso}T00:00:00Z`));
}

/** "2026-11-29T14:30" of a day and a clock time, "29.11.2026 14:30", "29 Nov 2026, 2:30 pm", "29.11.2026, 14:30 Uhr"; null: not both. */
export function readMoment(typed: string): string | null {
  const found = /^(.+?)[\s,T]+(\d{1,2}):(\d\d)(?:\s*(am|pm|Uhr))?$/i.exec(typed.trim());
  const iso = found && readDay(found[1]!);
  if (!iso) return null;
  const half = found[4]?.toLowerCase();
  const hour = Number(found[2]);
  if (half === "am" || half === "pm" ? hour < 1 || hour > 12 : hour > 23) return null;
  if (Number(found[3]) > 59) return null;
  const told = half === "am" || half === "pm" ? (hour % 12) + (half === "pm" ? 12 : 0) : hour;
  return `${iso}T${two(told)}:${found[3]}`;
}

const MOMENT = /^(\d{4}-\d\d-\d\d)T(\d\d:\d\d)$/;

export const isMoment = (text: string): boolean => MOMENT.test(text) && readMoment(text) === text;

/** A moment as a field shows it: "29.11.2026 14:30", "29 Nov 2026 14:30". What is none stays as it is. */
export function typedMoment(local: string): string {
  const found = MOMENT.exec(local);
  return found ? `${typedDay(found[1]!)} ${found[2]}` : local;
}

export function momentInWords(local: string): string {
  const found = MOMENT.exec(local);
  return found ? `${dayInWords(found[1]!)}, ${found[2]}` : "";
}
