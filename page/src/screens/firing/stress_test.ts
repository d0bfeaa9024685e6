import { describe, expect, it } from "vitest";
import type { LayerStress, SectionStress } from "./answers";
import { strongestPull, whyNoStress, worstStress } from "./stress";

function layer(stays: number): LayerStress {
  return { material: "powder", highest_hoop_MPa: stays, low_MPa: null, high_MPa: null, transient_highest_MPa: stays + 9, transient_low_MPa: null, transient_high_MPa: null, radial_at_inner_MPa: stays / 2, radial_low_MPa: null, radial_high_MPa: null };
}

function section(name: string, stays: number, other: number, worst: string): SectionStress {
  return {
    section: name,
    form: "sphere",
    remark_only: false,
    layers: [layer(-30), layer(stays)],
    worst,
    other_forms: [
      { form: "cylinder", remark_only: false, layers: [layer(-20), layer(other)] },
      { form: "plate-flat", remark_only: false, layers: [layer(-20), layer(90)] },
      { form: "cylinder", remark_only: true, layers: [layer(-20), layer(80)] },
    ],
    glass: "powder",
    glass_layer: 1,
    not_computed: null,
  };
}

const unknown: SectionStress = { section: "pontic", form: null, remark_only: null, layers: [], worst: null, other_forms: [], glass: null, glass_layer: null, not_computed: "a property lacks" };

describe("the stress that speaks for a piece", () => {
  it("is that of the section and form whose glass keeps most tension", () => {
    expect(worstStress([section("thin", 6, 2, "sphere"), section("thick", 3, 11, "cylinder")])).toMatchObject({ section: "thick", form: "cylinder", glass: { highest_hoop_MPa: 11 } });
    expect(worstStress([section("thin", -6, 2, "sphere"), unknown])).toMatchObject({ section: "thin", form: "sphere", glass: { highest_hoop_MPa: -6 } });
  });

  it("is across the bond that of a judged curved form on another layer", () => {
    expect(strongestPull([section("thin", 6, 2, "sphere"), section("thick", 3, 11, "cylinder"), unknown])).toMatchObject({ section: "thick", form: "cylinder", glass: { radial_at_inner_MPa: 5.5 } });
    expect([strongestPull(null), strongestPull([unknown]), strongestPull([{ ...section("thin", 6, 2, "sphere"), glass_layer: 0 }])]).toEqual([null, null, null]);
  });

  it("is none where nothing was asked for or computed, and says why", () => {
    expect([worstStress(null), worstStress([]), worstStress([unknown])]).toEqual([null, null, null]);
    expect([whyNoStress(null), whyNoStress([section("thin", 6, 2, "sphere"), unknown]), whyNoStress([unknown])]).toEqual([null, null, "a property lacks"]);
  });
});
