// What the guided dialog asks at the end of a firing, in order, and what its answers say to the server.

export const OUTCOMES = ["as wanted", "fire again", "make again", "not judged"] as const;
export type Outcome = (typeof OUTCOMES)[number];

export interface PieceAnswer {
  outcome?: Outcome;
  seen?: string;
  looked_like?: string;
}

export interface Readings {
  highest_display?: string;
  hold?: string;
  lowest_pressure?: string;
  duration?: string;
}

export interface EndAnswers {
  pieces: Readonly<Record<string, PieceAnswer>>;
  readings: Readings;
}

export type Question = { of: "how" | "seen"; piece: string } | { of: "readings" } | { of: "summary" };

export const NO_ANSWERS: EndAnswers = { pieces: {}, readings: {} };

/** One question after another; what was seen is asked only where a piece is not as wanted. */
export function questionsOf(pieces: readonly string[], answers: EndAnswers): Question[] {
  const ofPieces = pieces.flatMap((piece): Question[] => {
    const { outcome } = answers.pieces[piece] ?? {};
    return outcome === "fire again" || outcome === "make again" ? [{ of: "how", piece }, { of: "seen", piece }] : [{ of: "how", piece }];
  });
  return [...ofPieces, { of: "readings" }, { of: "summary" }];
}

function given<T extends object>(values: T): Partial<T> {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => typeof value === "string" && value.trim() !== "")) as Partial<T>;
}

export function endBody(pieces: readonly string[], answers: EndAnswers): Record<string, unknown> {
  return { pieces: pieces.map((piece) => ({ piece, ...given(answers.pieces[piece] ?? {}) })), ...given(answers.readings) };
}
