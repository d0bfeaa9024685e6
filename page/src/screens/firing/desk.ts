// The state of the Firing screen: what is on the bench, what was typed over it, and the last answer to it.
import { batch, computed, signal } from "@preact/signals";
import { ask, isAborted, paths, Refused, Unreachable, type Form, type KeptDocument, type Mistake } from "../../api/client";
import { lastAnswer, rememberAnswer } from "../../state/answers";
import { units } from "../../words";
import type { AskedFiring, PaneSize, RehearseAnswer, RehearseBody } from "./answers";
import { askedFiring, changeOf, documentsOf, FIRING, isWhole, namesOf, typedInto, valuesOf, type Bench, type Sheets } from "./bench";
import { began, redone, typed, undone, type History } from "./history";
import { answerShown, editBegan } from "./measure";
import { pictureFrom } from "./picture";
import { kindAndName, readKept, readRemembered, shownValues, versionsUsed } from "./reading";
import { isOfScale, shownIn } from "./typed_units";
import { WhileTyping, type Depth } from "./while_typing";
import { applied, type Change, type Values } from "./values";

export type FormKind = "program" | "firing";

export interface Shown {
  answer: RehearseAnswer;
  picture: SVGSVGElement | null;
  /** When the server gave it, UTC. */
  at: string;
  /** The typed values it answers. */
  of: Sheets;
}

/** What the answer on the screen is: of these values and whole, still without bands or without stress, asked for, of other values, or out of reach. */
export type Standing = "nothing" | "asking" | "bands follow" | "stress follows" | "whole" | "mistakes" | "refused" | "away";

const STANDS_AFTER: Readonly<Record<Depth, Standing>> = { numbers: "bands follow", bands: "stress follows", stress: "whole" };

/** Temperatures and rates that were typed in the other scale, in the one the reader chose. */
function toldAnew({ set, unset }: Change): Change {
  const scaled = (text: string) => (isOfScale(text) ? shownIn(text, units.peek()) : text);
  return { set: Object.fromEntries(Object.entries(set).map(([key, text]) => [key, scaled(text)])), unset };
}

const REMEMBER_AFTER_MS = 1500;
/** Tells this tab from the others of the browser, whose edits are no newer ones of this one's. */
const TAB = Math.random().toString(36).slice(2);

export class FiringDesk {
  readonly name: string | null;
  readonly base = signal<Sheets>({});
  readonly versions = signal<Readonly<Record<string, number>>>({});
  readonly history = signal<History<Sheets>>(began<Sheets>({}));
  readonly shown = signal<Shown | null>(null);
  readonly standing = signal<Standing>("nothing");
  readonly mistakes = signal<readonly Mistake[]>([]);
  /** Why the newest values got no answer, in the server's words. */
  readonly refusal = signal<string | null>(null);
  readonly failed = signal<Error | null>(null);
  /** When what is known of the kept documents was read, where that was before the server went away. */
  readonly readAt = signal<string | null>(null);
  readonly bench = computed<Bench>(() => ({ kept: this.name, base: this.base.value, typed: this.history.value.now, versions: this.versions.value }));

  /** The field tables of what is typed here: meaning, range and words to choose from. */
  readonly forms = signal<Partial<Record<FormKind, Form>>>({});

  /** The field somebody asked to be led to; the panes bring it into sight. */
  readonly wanted = signal<string | null>(null);

  private pane: PaneSize | null = null;
  private readonly reading = new Set<string>();
  /** What `base` was made of, so that it can be shown in other units. */
  private readonly documents = new Map<string, KeptDocument>();
  private remember: ReturnType<typeof setTimeout> | undefined;
  private ended = false;
  private readonly asking = new WhileTyping<AskedFiring, RehearseAnswer>({
    ask: (asked, edit, depth, stop) => ask<RehearseAnswer>("/api/rehearse", { method: "POST", body: this.body(asked, edit, depth), signal: stop }),
    answered: (answer, edit, depth) => this.answered(answer, edit, depth),
    failed: (error) => this.fail(error),
    moreFollows: (answer) => answer.rehearsal !== null,
    superseded: (error) => error instanceof Refused && error.word === "superseded",
  });

  constructor(name: string | null) {
    this.name = name;
    if (name === null) this.base.value = { [FIRING]: {} };
  }

  /** What a draft holds, in the units the reader chose since, laid over the kept documents; a step that can be taken back. */
  async restore(changes: Readonly<Record<string, Change>>): Promise<void> {
    const laid = (of: string, change: Change) => ({ of, values: applied(this.base.peek()[of] ?? {}, toldAnew(change)) });
    const firing = changes[FIRING];
    if (firing) this.typeAll([laid(FIRING, firing)]);
    await this.readDocuments();
    const others = Object.entries(changes).filter(([of]) => of !== FIRING && of in this.base.peek());
    if (others.length) this.typeAll(others.map(([of, change]) => laid(of, change)));
  }

  /** What was typed, as changes to the kept documents. */
  changes(): Record<string, Change> {
    const bench = this.bench.value;
    return Object.fromEntries(Object.keys(bench.typed).map((of) => [of, changeOf(bench, of)]));
  }

  /** Reads the firing and all it takes; what is typed may be asked for as soon as the picture's pane has a size. */
  async read(): Promise<void> {
    try {
      if (this.name !== null) await this.readDocument(`${FIRING} ${this.name}`, FIRING);
      await this.readDocuments();
    } catch (error) {
      if (!this.ended) this.failed.value = error instanceof Error ? error : new Error(String(error));
    }
  }

  /** Forms and the lists to choose from help, but nothing waits for them. */
  async readForms(): Promise<void> {
    await Promise.all(
      (["program", "firing"] as const).map(async (kind) => {
        const form = await readRemembered<Form>(paths.form(kind)).catch(() => null);
        if (form && !this.ended) this.forms.value = { ...this.forms.peek(), [kind]: form };
      }),
    );
  }

  /** As the firing was started with it, else the newest; `newest`: that one whatever it was started with. */
  private async readDocument(of: string, place: string, newest = false): Promise<void> {
    const { kind, name } = kindAndName(of);
    const found = await readKept(kind, name, units.peek(), newest ? undefined : versionsUsed(this.base.peek()[FIRING] ?? {})[of]);
    if (this.ended) return;
    this.documents.set(place, found.document);
    batch(() => {
      this.base.value = { ...this.base.value, [place]: found.values };
      this.versions.value = { ...this.versions.value, [place]: found.version };
      if (found.old !== null) this.readAt.value = found.old;
    });
  }

  /** Reads what the firing names and is not here yet: the program, its sheet's program, tray, furnace, pieces. */
  async readDocuments(): Promise<void> {
    const { instruction } = namesOf(this.bench.peek());
    const wanted = [...documentsOf(this.bench.peek()), ...(instruction ? [`instruction ${instruction}`] : [])];
    await Promise.all(wanted.map((of) => this.readOnce(of)));
    const makers = this.base.peek()[`instruction ${instruction}`]?.["program"];
    if (makers) await this.readOnce(`program ${makers}`);
  }

  private async readOnce(of: string): Promise<void> {
    if (of in this.base.peek() || this.reading.has(of)) return;
    this.reading.add(of);
    try {
      await this.readDocument(of, of);
    } catch (error) {
      // A name that is nowhere is told by the rehearsal, at its field; the table simply has no values of it.
      if (!(error instanceof Refused && error.status === 404)) throw error;
    } finally {
      this.reading.delete(of);
    }
  }

  /** The picture's pane, in pixels; the first size begins the rehearsal. */
  paneIs(size: PaneSize): void {
    const before = this.pane;
    this.pane = size;
    if (!before || Math.abs(before.width - size.width) > 4 || Math.abs(before.height - size.height) > 24) this.askAgain();
  }

  /** Values of a document typed anew; `field` joins what is typed into one field to one step back. */
  type(of: string, values: Values, field: string | null = null): void {
    const next = typedInto(this.bench.peek(), of, values);
    this.goOn(typed(this.history.peek(), next, field, performance.now()));
  }

  /** A new firing begins with these values: nothing to take back yet. */
  beginWith(values: Values): void {
    this.history.value = began<Sheets>({ [FIRING]: values });
    this.askAgain();
    void this.readDocuments().catch(() => {});
  }

  /** Several documents at once, as one step. */
  typeAll(changes: readonly { of: string; values: Values }[]): void {
    let bench = this.bench.peek();
    for (const { of, values } of changes) bench = { ...bench, typed: typedInto(bench, of, values) };
    this.goOn(typed(this.history.peek(), bench.typed, null, performance.now()));
  }

  undo(): void {
    this.goOn(undone(this.history.peek()));
  }

  redo(): void {
    this.goOn(redone(this.history.peek()));
  }

  /** Back to what is kept, as a step that can be taken back too. */
  reset(): void {
    const firing = this.history.peek().now[FIRING];
    this.goOn(typed<Sheets>(this.history.peek(), this.name === null && firing ? { [FIRING]: firing } : {}, null, performance.now()));
  }

  private goOn(next: History<Sheets>): void {
    if (next === this.history.peek()) return;
    this.history.value = next;
    this.askAgain();
    void this.readDocuments().catch(() => {});
  }

  askAgain(): void {
    const bench = this.bench.peek();
    if (!this.pane || this.ended || (this.name === null && !isWhole(bench))) return;
    this.standing.value = "asking";
    editBegan(this.asking.ask(askedFiring(bench)));
  }

  /** The reader chose other units or another language: what is kept and what was typed is written so, and the answer asked anew. */
  speakAnew(): void {
    const changes = this.changes();
    const base = Object.fromEntries(
      Object.entries(this.base.peek()).map(([of, values]) => {
        const document = this.documents.get(of);
        return [of, document ? shownValues(document, units.peek()) : values];
      }),
    );
    const typed = Object.entries(changes).map(([of, change]) => [of, applied(base[of] ?? {}, toldAnew(change))] as const);
    batch(() => {
      this.base.value = base;
      this.history.value = began<Sheets>(Object.fromEntries(typed));
    });
    this.askAgain();
  }

  /** What the server's absence left without an answer; not what answered meanwhile and so told of its return. */
  askWhenBack(): void {
    if (this.standing.peek() === "away") this.askAgain();
  }

  private body(asked: AskedFiring, edit: number, depth: Depth): RehearseBody {
    return { ...asked, edit, tab: TAB, bands: depth !== "numbers", stress: depth === "stress" ? "with" : "follows", picture: true, pane: this.pane ?? { width: 560, height: 0 }, shade: "light" };
  }

  private answered(answer: RehearseAnswer, edit: number, depth: Depth): void {
    const first = this.shown.peek() === null;
    const picture = answer.picture === null ? null : pictureFrom(answer.picture);
    batch(() => {
      this.failed.value = null;
      this.refusal.value = null;
      this.mistakes.value = answer.mistakes;
      if (answer.rehearsal === null) this.standing.value = "mistakes";
      else {
        this.shown.value = { answer, picture, at: new Date().toISOString(), of: this.history.peek().now };
        this.standing.value = STANDS_AFTER[depth];
      }
    });
    answerShown(edit, depth, first);
    if (depth === "stress" && answer.rehearsal) this.rememberLater(answer);
  }

  private fail(error: unknown): void {
    if (this.ended || isAborted(error)) return;
    batch(() => {
      this.standing.value = error instanceof Unreachable ? "away" : "refused";
      if (error instanceof Refused) {
        this.mistakes.value = error.mistakes;
        this.refusal.value = error.mistakes.length ? null : error.message;
      }
      if (this.shown.peek() === null) this.showRemembered();
    });
  }

  private get question(): string {
    return `firing ${this.name ?? ""}`;
  }

  private rememberLater(answer: RehearseAnswer): void {
    clearTimeout(this.remember);
    this.remember = setTimeout(() => rememberAnswer(this.question, answer, new Date().toISOString()), REMEMBER_AFTER_MS);
  }

  private showRemembered(): void {
    const last = lastAnswer<RehearseAnswer>(this.question);
    if (!last) return;
    const picture = last.answer.picture === null ? null : pictureFrom(last.answer.picture);
    this.shown.value = { answer: last.answer, picture, at: last.at, of: {} };
  }

  /** Everything is kept: read it anew, and nothing is typed over it any more. */
  async keptAs(name: string): Promise<void> {
    this.history.value = typed<Sheets>(this.history.peek(), {}, null, performance.now());
    if (name !== this.name) return;
    const known = Object.keys(this.base.peek());
    await Promise.all(known.map((of) => this.readDocument(of === FIRING ? `${FIRING} ${name}` : of, of)));
    this.askAgain();
  }

  /** What was typed over a document laid over its newer version. */
  async layOver(of: string): Promise<void> {
    const change = changeOf(this.bench.peek(), of);
    await this.readDocument(of === FIRING ? `${FIRING} ${this.name ?? ""}` : of, of, true);
    this.type(of, applied(this.base.peek()[of] ?? {}, change));
  }

  /** The newer version of a document in place of what was typed over the old one. */
  async takeNewer(of: string): Promise<void> {
    await this.readDocument(of === FIRING ? `${FIRING} ${this.name ?? ""}` : of, of, true);
    this.type(of, this.base.peek()[of] ?? {});
  }

  goTo(field: string): void {
    this.wanted.value = field;
  }

  values(of: string): Values {
    return valuesOf(this.bench.value, of);
  }

  end(): void {
    this.ended = true;
    clearTimeout(this.remember);
    this.asking.end();
  }
}
