// Which section and form speak for the stress of a piece: where the glass keeps most tension, and where the layer inside it draws it most.
import type { LayerStress, SectionStress } from "./answers";

export interface WorstStress {
  section: string;
  form: string;
  glass: LayerStress;
}

function worstOf(section: SectionStress): WorstStress | null {
  const { form, worst } = section;
  if (form === null || section.glass_layer === null) return null;
  const told = worst === null || worst === form ? { form, layers: section.layers } : section.other_forms.find((other) => other.form === worst);
  const glass = told?.layers[section.glass_layer];
  return told && glass ? { section: section.section, form: told.form, glass } : null;
}

/** Null where nothing was asked for or nothing could be computed. */
export function worstStress(sections: readonly SectionStress[] | null | undefined): WorstStress | null {
  let found: WorstStress | null = null;
  for (const section of sections ?? []) {
    const one = worstOf(section);
    if (one && (!found || one.glass.highest_hoop_MPa > found.glass.highest_hoop_MPa)) found = one;
  }
  return found;
}

const CURVED: readonly string[] = ["sphere", "cylinder"];

/** The glass that is drawn most across its inner face, of all judged forms that are curved; null where none lies on another layer. */
export function strongestPull(sections: readonly SectionStress[] | null | undefined): WorstStress | null {
  let found: WorstStress | null = null;
  for (const { section, form, remark_only, layers, other_forms, glass_layer } of sections ?? []) {
    if (form === null || !glass_layer) continue;
    for (const one of [{ form, remark_only, layers }, ...other_forms]) {
      const glass = one.layers[glass_layer];
      if (!glass || one.remark_only || !CURVED.includes(one.form)) continue;
      if (!found || glass.radial_at_inner_MPa > found.glass.radial_at_inner_MPa) found = { section, form: one.form, glass };
    }
  }
  return found;
}

/** Why nothing could be computed; null where something was, or nothing was asked for. */
export function whyNoStress(sections: readonly SectionStress[] | null | undefined): string | null {
  return worstStress(sections) ? null : (sections?.find(({ not_computed }) => not_computed !== null)?.not_computed ?? null);
}
