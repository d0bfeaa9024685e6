// What a call to the server can end with besides its answer.
import type { ErrorAnswer, Mistake } from "./types";

/** The sentence of a mistake without the key it begins with: it stands at its field, or behind the name that people know the field by. */
export function atItsField({ key, sentence }: Pick<Mistake, "key" | "sentence">): string {
  const own = key.replace(/\[\d+\]$/, "").split(".").at(-1) ?? "";
  return own !== "" && sentence.startsWith(`${own}: `) ? sentence.slice(own.length + 2) : sentence;
}

/** The server said no: its sentence is shown as it is. */
export class Refused extends Error {
  readonly status: number;
  readonly word: string;
  readonly answer: ErrorAnswer;

  constructor(status: number, answer: ErrorAnswer) {
    super(answer.sentence);
    this.name = "Refused";
    this.status = status;
    this.word = answer.error;
    this.answer = answer;
  }

  get mistakes(): readonly Mistake[] {
    return this.answer.mistakes ?? [];
  }

  /** Somebody else kept a newer version meanwhile. */
  get conflict(): { kind: string; name: string; from: number; newest: number } | null {
    const { kind, name, from, newest } = this.answer;
    return kind !== undefined && name !== undefined && from !== undefined && newest !== undefined ? { kind, name, from, newest } : null;
  }
}

/** No answer came: the network or the server is away. */
export class Unreachable extends Error {
  constructor() {
    super("unreachable");
    this.name = "Unreachable";
  }
}

/** The one who asked has gone on meanwhile. */
export function isAborted(error: unknown): boolean {
  return error instanceof DOMException && error.name === "AbortError";
}
