// Numbers of findings and readings as the reader writes them: two figures that mean something, decimal comma, the chosen scale.
import { number, t, type Units } from "../../words";

const MINUS = "−";

/** A number to two figures, whole from ten on. */
export function rounded(value: number): string {
  const size = Math.abs(value);
  const digits = size >= 10 || size === 0 ? 0 : size >= 1 ? 1 : Math.min(4, 1 - Math.floor(Math.log10(size)));
  const text = number(Math.abs(Number(value.toFixed(digits))), undefined);
  return Number(value.toFixed(digits)) < 0 ? MINUS + text : text;
}

/** A number and its unit in the reader's scale: kelvin are steps, and only a point on the scale gets the 32. */
function inScale(value: number, unit: string | null, units: Units): [number, string | null] {
  if (units === "celsius") return [value, unit];
  if (unit === "K") return [value * 1.8, "°F"];
  if (unit === "°C") return [value * 1.8 + 32, "°F"];
  return unit === "K/min" ? [value * 1.8, "°F/min"] : [value, unit];
}

export function withItsUnit(value: number, unit: string | null, units: Units = "celsius"): string {
  const [scaled, symbol] = inScale(value, unit, units);
  const shown = symbol === "points" ? t("firing.numbers.points") : symbol;
  return shown ? `${rounded(scaled)} ${shown}` : rounded(scaled);
}

/** "−20 to −7 K"; one number where both ends read the same. */
export function band(low: number, high: number, unit: string | null, units: Units = "celsius"): string {
  const [from, to] = [low, high].map((end) => rounded(inScale(end, unit, units)[0]));
  return from === to ? withItsUnit(low, unit, units) : t("firing.numbers.band", { from: from ?? "", to: withItsUnit(high, unit, units) });
}

export function temperature(celsius: number, units: Units): string {
  return units === "celsius" ? `${number(celsius, 0)} °C` : `${number(celsius * 1.8 + 32, 0)} °F`;
}

export function difference(kelvin: number, units: Units): string {
  return withItsUnit(kelvin, "K", units);
}

/** Minutes and seconds, "16 min 18 s". */
export function duration(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  const minutes = Math.floor(whole / 60);
  const rest = whole - minutes * 60;
  const text = minutes === 0 ? `${rest} s` : rest === 0 ? `${minutes} min` : `${minutes} min ${rest} s`;
  return seconds < 0 && whole > 0 ? MINUS + text : text;
}
