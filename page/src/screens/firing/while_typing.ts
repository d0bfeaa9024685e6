// Answers while somebody types: each edit asked at once, one question on its way, the newest waiting one next, and no stale answer ever told.

/** What an answer tells: the numbers alone, which come at once; their bands too; the stress of the layers too. Each follows the one before. */
export const DEPTHS = ["numbers", "bands", "stress"] as const;
export type Depth = (typeof DEPTHS)[number];

export interface Asking<Q, A> {
  /** Asks for one edit as deep as told. */
  ask(question: Q, edit: number, depth: Depth, stop: AbortSignal): Promise<A>;
  /** An answer to the newest edit. */
  answered(answer: A, edit: number, depth: Depth): void;
  /** The newest edit got no answer. */
  failed(error: unknown, edit: number): void;
  /** Whether an answer is one that a deeper one can follow. */
  moreFollows(answer: A): boolean;
  /** The server gave way to another page of the same person: asked again. */
  superseded(error: unknown): boolean;
}

interface Waiting<Q> {
  question: Q;
  edit: number;
  depth: Depth;
  turn: number;
}

const MOST_TURNS = 3;

export class WhileTyping<Q, A> {
  private readonly asking: Asking<Q, A>;
  private newest = 0;
  private waiting: Waiting<Q> | null = null;
  private onItsWay: { asked: Waiting<Q>; stop: AbortController } | null = null;
  private ended = false;

  constructor(asking: Asking<Q, A>) {
    this.asking = asking;
  }

  /** The number of the newest edit asked for. */
  get edit(): number {
    return this.newest;
  }

  /** Asks for an edit; numbers rise over all pages of a device, so that the newest one is always the highest. */
  ask(question: Q): number {
    this.newest = Math.max(this.newest + 1, Date.now());
    this.waiting = { question, edit: this.newest, depth: "numbers", turn: 0 };
    if (this.onItsWay && this.onItsWay.asked.depth !== "numbers") this.letGo();
    if (!this.onItsWay) this.next();
    return this.newest;
  }

  end(): void {
    this.ended = true;
    this.waiting = null;
    this.letGo();
  }

  private letGo(): void {
    this.onItsWay?.stop.abort();
    this.onItsWay = null;
  }

  private next(): void {
    const asked = this.waiting;
    if (!asked || this.ended) return;
    this.waiting = null;
    const mine = { asked, stop: new AbortController() };
    this.onItsWay = mine;
    this.asking.ask(asked.question, asked.edit, asked.depth, mine.stop.signal).then(
      (answer) => this.came(mine, () => this.tell(asked, answer)),
      (error: unknown) => this.came(mine, () => this.fail(asked, error)),
    );
  }

  private came(mine: { asked: Waiting<Q>; stop: AbortController }, tell: () => void): void {
    if (this.ended || this.onItsWay !== mine) return;
    this.onItsWay = null;
    if (mine.asked.edit === this.newest) tell();
    if (!this.onItsWay) this.next();
  }

  private tell(asked: Waiting<Q>, answer: A): void {
    const depth = DEPTHS[DEPTHS.indexOf(asked.depth) + 1];
    if (depth && this.asking.moreFollows(answer)) this.waiting = { ...asked, depth, turn: 0 };
    this.asking.answered(answer, asked.edit, asked.depth);
  }

  private fail(asked: Waiting<Q>, error: unknown): void {
    if (this.asking.superseded(error) && asked.turn < MOST_TURNS) {
      this.newest = Math.max(this.newest + 1, Date.now());
      this.waiting = { ...asked, edit: this.newest, turn: asked.turn + 1 };
      return;
    }
    this.asking.failed(error, asked.edit);
  }
}
