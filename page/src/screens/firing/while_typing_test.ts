import { beforeEach, describe, expect, it } from "vitest";
import { WhileTyping, type Depth } from "./while_typing";

interface Question {
  question: string;
  edit: number;
  depth: Depth;
  stop: AbortSignal;
  answer: (answer: string) => void;
  refuse: (error: unknown) => void;
}

let asked: Question[] = [];
let told: string[] = [];
let typing: WhileTyping<string, string>;
const turn = () => new Promise((done) => setTimeout(done, 0));

beforeEach(() => {
  asked = [];
  told = [];
  typing = new WhileTyping<string, string>({
    ask: (question, edit, depth, stop) => new Promise((answer, refuse) => asked.push({ question, edit, depth, stop, answer, refuse })),
    answered: (answer, _edit, depth) => told.push(`${answer}: ${depth}`),
    failed: (error) => told.push(`failed: ${String(error)}`),
    moreFollows: (answer) => !answer.startsWith("mistakes"),
    superseded: (error) => error === "superseded",
  });
});

describe("answers while typing", () => {
  it("asks the first edit at once", () => {
    typing.ask("a");
    expect(asked.map(({ question, depth }) => [question, depth])).toEqual([["a", "numbers"]]);
  });

  it("has one question on its way, and the newest waiting one next", async () => {
    typing.ask("a");
    typing.ask("b");
    typing.ask("c");
    expect(asked).toHaveLength(1);
    asked[0]?.answer("A");
    await turn();
    expect(asked.map(({ question }) => question)).toEqual(["a", "c"]);
  });

  it("never tells a stale answer", async () => {
    typing.ask("a");
    typing.ask("b");
    asked[0]?.answer("A");
    await turn();
    expect(told).toEqual([]);
    asked[1]?.answer("B");
    await turn();
    expect(told).toEqual(["B: numbers"]);
  });

  it("asks for bands after the quick answer, and for stress after the bands", async () => {
    typing.ask("a");
    asked[0]?.answer("A");
    await turn();
    expect(asked[1]).toMatchObject({ question: "a", depth: "bands" });
    asked[1]?.answer("A");
    await turn();
    expect(asked[2]).toMatchObject({ question: "a", depth: "stress" });
    expect(new Set(asked.map(({ edit }) => edit)).size).toBe(1);
    asked[2]?.answer("A");
    await turn();
    expect(told).toEqual(["A: numbers", "A: bands", "A: stress"]);
    expect(asked).toHaveLength(3);
  });

  it("asks for nothing more of values that are wrong", async () => {
    typing.ask("a");
    asked[0]?.answer("mistakes");
    await turn();
    expect(asked).toHaveLength(1);
  });

  it("lets bands go at once when the next edit is typed", async () => {
    typing.ask("a");
    asked[0]?.answer("A");
    await turn();
    typing.ask("b");
    expect(asked[1]?.stop.aborted).toBe(true);
    expect(asked[2]).toMatchObject({ question: "b", depth: "numbers" });
    asked[1]?.answer("late");
    await turn();
    expect(told).toEqual(["A: numbers"]);
  });

  it("lets stress go at once when the next edit is typed, and never tells it of other values", async () => {
    typing.ask("a");
    for (let i = 0; i < 2; i += 1) {
      asked[i]?.answer("A");
      await turn();
    }
    typing.ask("b");
    expect(asked[2]).toMatchObject({ question: "a", depth: "stress" });
    expect(asked[2]?.stop.aborted).toBe(true);
    asked[3]?.answer("B");
    asked[2]?.answer("late");
    await turn();
    expect(told).toEqual(["A: numbers", "A: bands", "B: numbers"]);
    expect(asked[4]).toMatchObject({ question: "b", depth: "bands" });
  });

  it("numbers edits so that the newest is always the highest", () => {
    const first = typing.ask("a");
    const second = typing.ask("b");
    expect(second).toBeGreaterThan(first);
    expect(first).toBeGreaterThan(1.7e12);
  });

  it("tells that the newest edit failed, and says nothing of an older one", async () => {
    typing.ask("a");
    typing.ask("b");
    asked[0]?.refuse("away");
    await turn();
    expect(told).toEqual([]);
    asked[1]?.refuse("away");
    await turn();
    expect(told).toEqual(["failed: away"]);
  });

  it("asks again where another page of the same person was faster, but not for ever", async () => {
    typing.ask("a");
    for (let i = 0; i < 3; i += 1) {
      asked.at(-1)?.refuse("superseded");
      await turn();
    }
    expect(asked).toHaveLength(4);
    expect(new Set(asked.map(({ edit }) => edit)).size).toBe(4);
    asked.at(-1)?.refuse("superseded");
    await turn();
    expect(told).toEqual(["failed: superseded"]);
  });

  it("tells nothing once it has ended", async () => {
    typing.ask("a");
    typing.end();
    expect(asked[0]?.stop.aborted).toBe(true);
    asked[0]?.answer("A");
    await turn();
    expect(told).toEqual([]);
  });
});
