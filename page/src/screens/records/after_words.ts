// What a piece was after a firing, in words with numbers as the reader writes them.
import { number, t, units } from "../../words";
import type { After, LayerAfter, StressAfter } from "./piece_history";

function difference(kelvin: number): string {
  return units.value === "fahrenheit" ? `${number(Math.round(kelvin * 1.8))} °F` : `${number(Math.round(kelvin))} K`;
}

function temperature(celsius: number): string {
  return units.value === "fahrenheit" ? `${number(Math.round(celsius * 1.8 + 32))} °F` : `${number(Math.round(celsius))} °C`;
}

const NO_WATER_G = 5e-4;

/** "reached 793 °C, like 13 K less than the maker's own, no water left". */
export function afterWords({ peak_C, shift_K, water_left_g }: After): string {
  const said: string[] = [];
  if (peak_C !== null) said.push(t("records.after.peak", { temperature: temperature(peak_C) }));
  if (shift_K !== null) said.push(shiftWords(shift_K));
  if (water_left_g !== null) said.push(water_left_g < NO_WATER_G ? t("records.after.dry") : t("records.after.water", { mass: `${number(water_left_g, 2)} g` }));
  return said.join(", ");
}

function shiftWords(kelvin: number): string {
  const size = difference(Math.abs(kelvin));
  if (Math.round(kelvin) === 0) return t("records.after.like_makers");
  return kelvin < 0 ? t("records.after.less", { size }) : t("records.after.more", { size });
}

export function layerWords(layer: LayerAfter): string {
  const said: string[] = [];
  if (layer.porosity_percent !== null) {
    const share = layer.sealed_share;
    const closed = share === null ? "" : share >= 1 ? t("records.after.all_closed") : share <= 0 ? t("records.after.all_open") : t("records.after.some_closed", { share: number(Math.round(100 * share)) });
    said.push([t("records.after.pores", { share: number(layer.porosity_percent, 2) }), closed].filter(Boolean).join(", "));
  }
  if (layer.rounding_um !== null) said.push(t("records.after.edges", { size: `${number(Math.round(layer.rounding_um))} µm` }));
  if (layer.crystallised_share !== null) said.push(t("records.after.crystals", { share: number(Math.round(100 * layer.crystallised_share)) }));
  return said.join(", ");
}

/** "highest tension 12 MPa (3 to 23) stays, 28 MPa on the way", or why there is none. */
export function stressWords({ stays_MPa, low_MPa, high_MPa, on_the_way_MPa, not_computed }: StressAfter): string {
  if (stays_MPa === null) return not_computed ?? "";
  const whole = (value: number) => number(Math.round(value) + 0);
  const band = low_MPa === null || high_MPa === null ? "" : ` (${t("records.after.band", { from: whole(low_MPa), to: whole(high_MPa) })})`;
  return t("records.after.tension", { stays: `${whole(stays_MPa)} MPa${band}`, way: `${whole(on_the_way_MPa ?? stays_MPa)} MPa` });
}
