// A kept value for its reader: as the person typed it, but in the reader's scale of temperature and with his decimal mark.
import type { DocumentValue, FormField } from "../api/types";
import { asPeopleWrite, number, units } from "../words";

const ZERO_CELSIUS_K = 273.15;

function rounded(value: number): string {
  return number(Math.round(value * 10) / 10);
}

function inFahrenheit(kind: string, si: number): string | null {
  if (kind === "a temperature") return `${rounded((si - ZERO_CELSIUS_K) * 1.8 + 32)} °F`;
  if (kind === "a temperature difference") return `${rounded(si * 1.8)} °F`;
  return kind === "a heating rate" ? `${rounded(si * 60 * 1.8)} °F/min` : null;
}

export function quantityText({ typed, text, si }: Pick<DocumentValue, "typed" | "text" | "si">, kind: FormField["kind"]): string {
  if (kind?.startsWith("a number")) return asPeopleWrite(typed || text);
  if (si === null || !kind) return text;
  const converted = units.value === "fahrenheit" ? inFahrenheit(kind, si) : null;
  if (converted !== null) return converted;
  return asPeopleWrite(typed === "" || typed.includes("F") ? text : typed);
}
