// What can be put into a firing: the lab's pieces, trays, furnaces, programs and sheets, as lists to choose from.
import { useAnswer } from "../../state/use_answer";
import { paths, type DocumentList, type DocumentRow, type Kind } from "../../api/client";
import type { Option } from "../../parts";

/** A row of a list as far as this screen reads it; lists that know more of their kind give it too. */
export interface ShelfRow extends DocumentRow {
  material?: string | null;
  stage?: string | null;
  /** Of a maker's sheet: its program. */
  program?: string | null;
  /** Of a program: of all sheets that name it. */
  stages?: string[];
  materials?: string[];
  /** Of a firing: what is in it. */
  pieces?: string[];
}

export function useShelf(kind: Kind): readonly ShelfRow[] {
  return useAnswer<DocumentList<ShelfRow>>(paths.documents(kind)).answer?.rows ?? [];
}

/** Rows as options; a name that is chosen but not in the list stays one. */
export function options(rows: readonly DocumentRow[], chosen: string): Option[] {
  const all = rows.map((row) => ({ value: row.name, label: row.label ? `${row.label} (${row.name})` : row.name }));
  return chosen && !rows.some((row) => row.name === chosen) ? [{ value: chosen, label: chosen }, ...all] : all;
}

/** Rows that fit first, in their order; then the others. */
export function fittingFirst(rows: readonly ShelfRow[], fits: (row: ShelfRow) => boolean): ShelfRow[] {
  return [...rows.filter(fits), ...rows.filter((row) => !fits(row))];
}

/** The one sheet for this stage of work and these materials; null where there is none, or more than one. */
export function onlySheet(sheets: readonly ShelfRow[], stage: string, materials: readonly string[]): ShelfRow | null {
  const fitting = sheets.filter((row) => row.stage === stage && row.material && materials.includes(row.material));
  return fitting.length === 1 ? (fitting[0] ?? null) : null;
}
