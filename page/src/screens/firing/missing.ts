// Where to give what a finding misses: a field of this screen, or the page of the document it belongs to.
import { pathOf } from "../../shell/routes";
import type { FoundFinding } from "./answers";
import { namesOf, valuesOf, type Bench } from "./bench";

/** A field of this screen by its id, or a page. */
export type MissingPlace = { field: string; to?: never } | { to: string; field?: never };

export const TRAY_MASS = "firing-tray-mass";
export const INSTRUCTION = "firing-instruction";
export const CHAMBER = "firing-chamber-cold";

export function missingPlace(finding: FoundFinding, bench: Bench): MissingPlace | null {
  const names = namesOf(bench);
  if (["heat", "degree of firing"].includes(finding.aspect) && !valuesOf(bench, `tray ${names.tray}`)["mass"]) return { field: TRAY_MASS };
  if (finding.aspect === "degree of firing" && !names.instruction) return { field: INSTRUCTION };
  if (finding.aspect === "chamber") return { field: CHAMBER };
  if (finding.aspect === "furnace" && names.furnace) return { to: pathOf("furnace", names.furnace) };
  if (finding.piece) return { to: pathOf("piece", finding.piece) };
  return null;
}
