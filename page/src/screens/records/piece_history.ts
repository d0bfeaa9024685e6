// What a piece went through, as the server tells it: firings and bench steps in order, and what the material was after each firing.
export interface LayerAfter {
  section: string;
  material: string;
  porosity_percent: number | null;
  sealed_share: number | null;
  rounding_um: number | null;
  crystallised_share: number | null;
}

/** Stress of the glass of a section; where it was not computed only why. */
export interface StressAfter {
  section: string;
  material: string | null;
  stays_MPa: number | null;
  low_MPa: number | null;
  high_MPa: number | null;
  on_the_way_MPa: number | null;
  not_computed: string | null;
}

export interface After {
  how: string;
  /** Version of the kept rehearsal it was read from. */
  rehearsal: number | null;
  shift_K: number | null;
  hold_s: number | null;
  peak_C: number | null;
  water_left_g: number | null;
  layers: LayerAfter[];
  stress?: StressAfter[];
}

export interface Photo {
  hash: string;
  of: string | null;
}

export interface FiringEvent {
  kind: "firing";
  name: string;
  at: string;
  person: string;
  state: string;
  stage: string;
  furnace: string;
  program: string;
  interruption: string | null;
  ended: string | null;
  ended_by: string | null;
  after: After | null;
  result: { outcome: string; looked_like_K: number | null; seen: string | null } | null;
  photos: Photo[];
}

export interface StepEvent {
  kind: "bench step";
  name: string;
  at: string;
  person: string;
  work: string;
  pieces: string[];
  lots: string[];
  note: string | null;
}

export interface DeviationEvent {
  kind: "deviation";
  name: string;
  at: string;
  person: string;
  from: string | null;
  found: string | null;
  decision: string;
  released_at: string | null;
  released_by: string | null;
}

export type PieceEvent = FiringEvent | StepEvent | DeviationEvent;

export interface PieceHistory {
  format: 1;
  piece: string;
  version: number;
  zone: string;
  history: PieceEvent[];
}

export function bare(reference: string): string {
  return reference.split("@")[0] ?? reference;
}
