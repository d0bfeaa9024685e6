// Programs as a person looks for one: by what it is for, not by a place in a list.
import type { DocumentRow } from "../../api/types";

export interface ProgramRow extends DocumentRow {
  /** Materials of the instructions it stands in and of the pieces fired with it. */
  materials?: string[];
  stages?: string[];
  last_used?: string | null;
  last_furnace?: string | null;
}

export interface Wanted {
  materials: readonly string[];
  stage: string;
}

/** What fits the piece's materials and the stage of work; what is not known of a program does not hide it. */
export function fits(row: ProgramRow, wanted: Wanted): boolean {
  const materials = row.materials ?? [];
  const stages = row.stages ?? [];
  const ofMaterial = wanted.materials.length === 0 || materials.length === 0 || materials.some((material) => wanted.materials.includes(material));
  return ofMaterial && (wanted.stage === "" || stages.length === 0 || stages.includes(wanted.stage));
}

/** Those known to fit first, then the lately used, then by label. */
export function inOrder(rows: readonly ProgramRow[], wanted: Wanted): ProgramRow[] {
  const known = (row: ProgramRow) => Number((row.materials ?? []).some((material) => wanted.materials.includes(material))) + Number(wanted.stage !== "" && (row.stages ?? []).includes(wanted.stage));
  return [...rows].sort((a, b) => known(b) - known(a) || (b.last_used ?? "").localeCompare(a.last_used ?? "") || (a.label || a.name).localeCompare(b.label || b.name));
}
