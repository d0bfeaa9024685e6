// The shapes of a rehearsal as the server answers it, and what is asked for.
import type { Mistake } from "../../api/client";

export type Level = "sound" | "borderline" | "fault expected" | "cannot tell";

/** A value a finding names for the table: of which document, which key, what to write there. */
export interface Suggestion {
  of: string;
  key: string;
  value: string;
}

export interface FoundFinding {
  aspect: string;
  aspect_words?: string;
  level: Level;
  level_words?: string;
  piece: string | null;
  sentence: string;
  number: number | null;
  unit: string | null;
  low: number | null;
  high: number | null;
  /** Number, band and limit as the reader writes them. */
  number_words?: string | null;
  band_words?: string | null;
  limit_words?: string | null;
  limit: number | null;
  limit_from: string | null;
  limit_from_words?: string | null;
  change: string | null;
  where: string | null;
  advised?: Suggestion[];
  explain?: { page: string; equation: string | null; source: string | null } | null;
}

export interface Moment {
  what: string;
  words?: string;
  piece: string | null;
  at_s: number;
  display_C: number;
}

/** The highest stresses of a layer, between which bounds they lie, in MPa; null without bands. */
export interface LayerStress {
  material: string;
  highest_hoop_MPa: number;
  low_MPa: number | null;
  high_MPa: number | null;
  transient_highest_MPa: number;
  transient_low_MPa: number | null;
  transient_high_MPa: number | null;
  radial_at_inner_MPa: number;
  radial_low_MPa: number | null;
  radial_high_MPa: number | null;
}

export interface FormStress {
  form: string;
  /** Shown beside the others, not judged. */
  remark_only: boolean;
  layers: LayerStress[];
}

/** Of a section: the form its shape stands for, and the others beside it; `form` is null where nothing was computed. */
export interface SectionStress extends Omit<FormStress, "form" | "remark_only"> {
  section: string;
  form: string | null;
  remark_only: boolean | null;
  worst: string | null;
  other_forms: FormStress[];
  glass: string | null;
  /** Place of the glass among the layers, from inside out. */
  glass_layer: number | null;
  not_computed: string | null;
}

export interface PieceReadings {
  piece: string;
  peak_C: { display: number; chamber: number; surface: number; core: number };
  compared: { quantity: string; shift_K: number | null; shift_low_K: number | null; shift_high_K: number | null; hold_s: number | null; hold_low_s: number | null; hold_high_s: number | null } | null;
  end: { water_left_g: number | null; porosity_percent: number | null; heat_work: number | null; rounding_um: number | null; crystallised_fraction: number | null; crystal_um: number | null; relative_density?: number | null; grain_um?: number | null; frame_sag_most_um?: number | null; stress?: SectionStress[] | null };
}

/** What a kept check of the furnace says to this rehearsal. */
export interface CheckSaid {
  of: string;
  check: string;
  day: string;
  used: boolean;
  value: number | null;
  standard_uncertainty: number | null;
  unit: string | null;
  sentence: string;
}

export interface Rehearsal {
  program_version: string;
  model_version: number;
  inputs_hash: string;
  firing: string;
  furnace: string;
  program: string;
  instruction: string | null;
  reference: { tray: string | null; assumptions: string[] } | null;
  /** Absent where no check of the furnace is kept. */
  checks: CheckSaid[];
  pieces: PieceReadings[];
  moments: Moment[];
  findings: FoundFinding[];
}

export interface RehearseAnswer {
  edit: number;
  bands: boolean;
  stress: boolean;
  mistakes: Mistake[];
  rehearsal: Rehearsal | null;
  first: number | null;
  picture: string | null;
}

export interface NewFiring {
  stage: string;
  pieces: { piece: string; place: string }[];
  tray: string;
  furnace: string;
  program: string;
  instruction?: string;
  chamber: Record<string, string>;
}

/** What is rehearsed or kept: a kept firing, or one put together from kept things, with what was typed over them. */
export interface AskedFiring {
  firing?: string;
  new?: NewFiring;
  set: Record<string, Record<string, string>>;
  unset: Record<string, string[]>;
  /** Versions of what was typed over. */
  from: Record<string, number>;
}

export interface PaneSize {
  width: number;
  height: number;
}

export interface RehearseBody extends AskedFiring {
  edit: number;
  /** Which tab of the browser asks. */
  tab: string;
  bands: boolean;
  /** "follows": asked for next; the picture keeps its place. */
  stress: "follows" | "with";
  picture: boolean;
  pane: PaneSize;
  shade: "light" | "dark";
}

export interface Help {
  aspect: string;
  title: string;
  meaning: string;
  equation: string | null;
  equations?: string[];
  source: string | null;
  sources?: string[];
}
