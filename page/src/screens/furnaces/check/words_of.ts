// Words of the page for what the server names by its own words.
import { t, type PlainWord } from "../../../words";
import type { CheckKind, CheckLevel, Decision, MapPlace } from "./answer";

const KIND: Record<CheckKind, PlainWord> = { temperature: "check.kind.temperature", thermocouple: "check.kind.thermocouple", "chamber-map": "check.kind.chamber_map", vacuum: "check.kind.vacuum", heating: "check.kind.heating" };
const LEVEL: Record<CheckLevel, PlainWord> = { "going on": "check.level.going_on", good: "check.level.good", "not good": "check.level.not_good", "cannot tell": "check.level.cannot_tell" };
const DECISION: Record<Decision, PlainWord> = { left: "check.decision.left", corrected: "check.decision.corrected", "allowed for": "check.decision.allowed_for", "out of use": "check.decision.out_of_use" };
const PLACE: Record<MapPlace, PlainWord> = { middle: "check.place.middle", front: "check.place.front", back: "check.place.back", left: "check.place.left", right: "check.place.right" };
const STANDING: Readonly<Record<string, PlainWord>> = {
  measured: "check.standing.measured", computed: "check.standing.computed", memory: "check.standing.memory", assumed: "check.standing.assumed", "none found": "check.standing.none_found",
};

export const kindWords = (kind: CheckKind): string => t(KIND[kind]);
export const levelWords = (level: CheckLevel): string => t(LEVEL[level]);
export const decisionWords = (decision: Decision): string => t(DECISION[decision]);
export const placeWords = (place: MapPlace): string => t(PLACE[place]);

export function standingWords(standing: string): string {
  const word = STANDING[standing];
  return word ? t(word) : standing;
}

/** Kinds of check as documents spell them, "chamber map"; those that are guided have a path. */
export function kindOf(of: string): CheckKind | null {
  const path = of.replace(" ", "-");
  return path in KIND ? (path as CheckKind) : null;
}

export function levelOf(state: string): CheckLevel | null {
  return state in LEVEL ? (state as CheckLevel) : null;
}
