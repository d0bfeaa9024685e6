// The shapes of the server's answers, as its description at /api/openapi.json has them.
import type { Language, Units } from "../words";

export interface Mistake {
  of: string;
  key: string;
  sentence: string;
}

export interface ErrorAnswer {
  error: string;
  sentence: string;
  kind?: string;
  name?: string;
  from?: number;
  newest?: number;
  mistakes?: Mistake[];
}

export type Role = "look" | "fire" | "release";

export interface LabNow {
  kept: boolean;
  name: string | null;
  language: Language | null;
  units: Units | null;
  demo: boolean;
}

export interface Session {
  format: 1;
  signed_in: boolean;
  sign_in_needed: boolean;
  person: string | null;
  known_by: string | null;
  by: "password" | "PIN" | "this machine" | null;
  /** Whether the person is entered in this lab. */
  entered: boolean;
  role: Role | null;
  may_set_up: boolean;
  token: string;
  password_until?: string | null;
  lab: LabNow;
  demo: boolean;
  /** In which language the labels and notes of the demo lab are; null outside of it. */
  demo_language: Language | null;
  version: string;
}

export type Kind =
  | "program" | "furnace" | "instruction" | "tray" | "support" | "material" | "liquid" | "alloy" | "piece" | "firing" | "case" | "lot"
  | "bench-step" | "check" | "reference" | "deviation" | "person" | "lock" | "lab";

export interface DocumentRow {
  name: string;
  version: number;
  label: string;
  state: string;
  at: string | null;
  locked: boolean;
}

export interface DocumentList<Row extends DocumentRow = DocumentRow> {
  format: 1;
  kind: string;
  count: number;
  page: number;
  rows: Row[];
}

export interface DocumentValue {
  key: string;
  typed: string;
  text: string;
  si: number | null;
}

export interface KeptDocument {
  format: 1;
  kind: string;
  name: string;
  version: number;
  newest: number;
  hash: string;
  sequence: number;
  at: string;
  zone: string;
  person: string;
  known_by: string;
  action: string;
  reason: string;
  locked_because: string | null;
  /** Of a firing alone: its kept rehearsal was made before this check of its furnace. */
  made_before_check?: { check: string; day: string } | null;
  text: string;
  values: DocumentValue[];
}

export interface FormChoice {
  value: string;
  label: string;
}

export interface FormField {
  key: string;
  label: string;
  meaning: string;
  type: "text" | "whole number" | "number" | "truth" | "list of texts" | "list of numbers" | "group" | "list";
  kind?: string | null;
  /** What kind of value it takes, in the asked language. */
  kind_words?: string | null;
  unit?: string | null;
  example?: string | null;
  range?: string | null;
  required?: boolean;
  default?: string | null;
  choices?: FormChoice[];
  refers_to?: string | null;
  for_people?: boolean;
  fields?: FormField[];
  at_least?: number | null;
  at_most?: number | null;
  one?: string | null;
}

export interface Form {
  format: 1;
  kind: string;
  fields: FormField[];
}

export interface FiringToday {
  name: string;
  label: string;
  state: "planned" | "started" | "ended" | "interrupted" | "called off";
  stage: string;
  furnace: string;
  program: string;
  pieces: { piece: string; place: string }[];
  planned_for: string | null;
  started: string | null;
  started_by: string | null;
  interrupted: string | null;
  interruption: string | null;
  /** When its chamber is expected to open, UTC; of one that runs. */
  open: { expected: string; earliest: string; latest: string } | null;
}

/** The firing that comes next for a piece. */
export interface NextFiring {
  firing: string;
  stage: string;
  state: FiringToday["state"];
  planned_for: string | null;
}

export interface CaseToday {
  name: string;
  label: string;
  teeth: number[];
  wanted: string | null;
  next_step: string | null;
  pieces: { piece: string; label: string; kept: boolean; next: NextFiring | null }[];
}

export interface Due {
  on: string;
  overdue: boolean;
  kind: string;
  name: string;
  label: string;
  what: string;
}

export interface Today {
  format: 1;
  today: string;
  zone: string;
  firings: FiringToday[];
  cases: CaseToday[];
  due: Due[];
  overdue: number;
  firings_count?: number;
  cases_count?: number;
  due_count?: number;
}

export interface Lab {
  format: 1;
  kept: boolean;
  document: string | null;
  version: number | null;
  name: string;
  language: Language;
  language_from: "lab" | "setting" | "nothing";
  units: Units;
  units_from: "lab" | "setting" | "nothing";
  demo: boolean;
}

export interface Person {
  format: 1;
  person: string;
  version: number;
  role: Role;
  may_set_up: boolean;
  left: boolean;
  personal_data: boolean;
  name?: string | null;
  contact?: string | null;
}

export interface StoreStatus {
  format: 1;
  engine: string;
  documents: number;
  versions: number;
  entries: number;
  bytes: number;
  free_bytes: number;
  nearly_full: boolean;
  roles_in_force: boolean;
  backups: { folder: string; there: boolean; newest: string | null; newest_utc: string | null; overdue: boolean } | null;
  head: string;
}

export interface Finding {
  aspect: string;
  aspect_words?: string;
  level: "sound" | "borderline" | "fault expected" | "cannot tell";
  level_words?: string;
  sentence: string;
  piece?: string | null;
  change?: string | null;
  number?: number | null;
  limit?: number | null;
  whose_limit?: string | null;
  explain?: { page: string; equation: string; source: string } | null;
}
