// What a furnace's figures say, in words: what its display shows wrongly, and what is keyed in against it.
import type { DocumentValue } from "../../api/types";
import { quantityText } from "../../kept/quantity";
import { asTold, t } from "../../words";

export type ValueOf = (key: string) => DocumentValue | undefined;

export function valuesOf(values: readonly DocumentValue[]): ValueOf {
  const byKey = new Map(values.map((value) => [value.key, value]));
  return (key) => byKey.get(key);
}

function differenceText(value: DocumentValue): string {
  return quantityText(value, "a temperature difference");
}

/** "reads 12 K too high (within 3 K)": display minus true temperature. */
export function displayWords(of: ValueOf): string {
  const error = of("display_error.error");
  if (!error) return t("furnaces.display_unknown");
  const size = differenceText(error).replace(/^[-−+]\s*/, "");
  const known = of("display_error.standard_uncertainty");
  const uncertainty = known ? differenceText(known) : "";
  const within = uncertainty ? t("furnaces.within", { uncertainty }) : t("furnaces.no_uncertainty");
  const amount = error.si ?? (Number.parseFloat(error.typed.replace("−", "-").replace(",", ".")) || 0);
  if (amount === 0) return `${t("furnaces.reads_true")} ${within}`;
  return `${amount > 0 ? t("furnaces.reads_high", { size }) : t("furnaces.reads_low", { size })} ${within}`;
}

/** Display minus true temperature as the file has it; null where it tells none. [K] */
export function fileError_K(of: ValueOf): number | null {
  return of("display_error.error")?.si ?? null;
}

export function checkedWords(of: ValueOf): string {
  const checked = of("display_error.checked")?.text;
  return checked ? t("furnaces.checked", { how: asTold(checked) }) : t("furnaces.never_checked");
}

/** What is keyed in, and what its sign does in this furnace. */
export function correctionWords(of: ValueOf): string {
  const keyed = of("correction_keyed");
  const convention = of("correction_convention")?.typed;
  if (!keyed) return t("furnaces.no_correction");
  if (convention === "added to display") return t("furnaces.correction_display", { size: differenceText(keyed) });
  if (convention === "added to setting") return t("furnaces.correction_setting", { size: differenceText(keyed) });
  return t("furnaces.correction_unknown", { size: differenceText(keyed) });
}
