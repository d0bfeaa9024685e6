// What the trail calls things, in the words of the reader; what is not known here is said as it stands.
import { t, type PlainWord } from "../../words";

const ACTIONS: Readonly<Record<string, PlainWord>> = {
  added: "records.action.added",
  changed: "records.action.changed",
  planned: "records.action.planned",
  rehearsed: "records.action.rehearsed",
  started: "records.action.started",
  ended: "records.action.ended",
  interrupted: "records.action.interrupted",
  "called off": "records.action.called_off",
  locked: "records.action.locked",
  unlocked: "records.action.unlocked",
  decided: "records.action.decided",
  released: "records.action.released",
  "photo kept": "records.action.photo_kept",
  "personal data kept": "records.action.personal_kept",
  "personal data erased": "records.action.personal_erased",
  "store made": "records.action.store_made",
  migrated: "records.action.migrated",
  restored: "records.action.restored",
  moved: "records.action.moved",
  "moved outwards": "records.action.moved",
};

const KINDS: Readonly<Record<string, PlainWord>> = {
  case: "records.one.case",
  piece: "records.one.piece",
  firing: "records.one.firing",
  rehearsal: "records.one.rehearsal",
  program: "records.one.program",
  furnace: "records.one.furnace",
  instruction: "records.one.instruction",
  lot: "records.one.lot",
  check: "records.one.check",
  reference: "records.one.reference",
  deviation: "records.one.deviation",
  "bench step": "records.one.bench_step",
  material: "records.one.material",
  liquid: "records.one.liquid",
  alloy: "records.one.alloy",
  tray: "records.one.tray",
  support: "records.one.support",
  person: "records.one.person",
  lock: "records.one.lock",
  lab: "records.one.lab",
  photo: "records.one.photo",
  snapshot: "records.one.snapshot",
  store: "records.one.store",
};

export function actionWords(action: string): string {
  const word = ACTIONS[action];
  return word ? t(word) : action;
}

export function kindWords(kind: string): string {
  const word = KINDS[kind];
  return word ? t(word) : kind;
}

/** The name of a kind as addresses write it, "bench-step"; null for what is no kind. */
export function kindName(kind: string): string | null {
  const word = KINDS[kind.replace("-", " ")];
  return word ? t(word) : null;
}
