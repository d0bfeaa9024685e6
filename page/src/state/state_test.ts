import { beforeEach, describe, expect, test } from "vitest";
import { forgetAnswers, lastAnswer, rememberAnswer } from "./answers";
import { device, tab } from "./device_for_tests";
import { draft, place, typist, waitingDrafts } from "./drafts";
import { keepsNothing, keysOf } from "./kept";

const WHERE = { screen: "firing", document: "first-firing", version: 3 };

beforeEach(() => {
  place.value = "lab";
  keepsNothing.value = false;
});

describe("a draft", () => {
  test("outlives a reload, for its own screen, document and version only", () => {
    draft<string>(WHERE).change("1 min 30 s");
    expect(draft<string>(WHERE).values.value).toBe("1 min 30 s");
    expect(draft<string>({ ...WHERE, version: 4 }).values.value).toBeNull();
    expect(draft<string>({ ...WHERE, document: "second-firing" }).values.value).toBeNull();
    expect(draft<string>({ ...WHERE, screen: "programs" }).values.value).toBeNull();
  });

  test("of the demo lab does not show up in the lab", () => {
    place.value = "demo";
    draft<string>(WHERE).change("demo");
    place.value = "lab";
    expect(draft<string>(WHERE).values.value).toBeNull();
    expect(waitingDrafts()).toEqual([]);
  });

  test("is gone once it is kept in the lab", () => {
    const one = draft<string>(WHERE);
    one.change("x");
    one.end();
    expect(one.values.value).toBeNull();
    expect(draft<string>(WHERE).values.value).toBeNull();
  });

  test("waits in a list, newest first", async () => {
    draft<string>(WHERE).change("first");
    await new Promise((resolve) => setTimeout(resolve, 5));
    draft<string>({ ...WHERE, document: "a|b" }).change("second");
    expect(waitingDrafts().map((one) => one.screen)).toEqual(["firing", "firing"]);
    expect(waitingDrafts()[1]).toMatchObject(WHERE);
  });

  test("on a full device says that it is not kept, and goes on", () => {
    device.room = 10;
    const one = draft<string>(WHERE);
    one.change("too long to fit");
    expect(one.values.value).toBe("too long to fit");
    expect(keepsNothing.value).toBe(true);
  });

  test("says whose it is, where that is somebody else", () => {
    typist.value = "mara";
    draft<string>(WHERE).change("x");
    expect(draft<string>(WHERE).by.value).toBeNull();
    typist.value = "tom";
    const one = draft<string>(WHERE);
    expect(one.by.value).toBe("mara");
    expect(waitingDrafts()[0]?.by).toBe("mara");
    one.change("y");
    expect(one.by.value).toBeNull();
    typist.value = null;
  });

  test("of another tab is told, and neither loses what was typed in it", async () => {
    const mine = draft<string>(WHERE);
    mine.change("mine");
    const mineInTab = tab.getItem(tab.key(0) ?? "") ?? "";
    await new Promise((resolve) => setTimeout(resolve, 5));
    tab.clear();
    draft<string>(WHERE).change("theirs");
    tab.clear();
    tab.setItem(device.key(0) ?? "", mineInTab);
    const again = draft<string>(WHERE);
    expect(again.values.value).toBe("mine");
    expect(again.elsewhere.value).not.toBeNull();
    again.end();
    expect(draft<string>(WHERE).values.value).toBe("theirs");
  });

  test("of another tab can be taken over", async () => {
    const mine = draft<string>(WHERE);
    mine.change("mine");
    await new Promise((resolve) => setTimeout(resolve, 5));
    device.setItem(device.key(0) ?? "", JSON.stringify({ values: "theirs", at: new Date().toISOString(), by: null }));
    expect(mine.takeOther()).toBe("theirs");
    expect(mine.values.value).toBe("theirs");
    mine.end();
    expect(draft<string>(WHERE).values.value).toBeNull();
  });

  test("that somebody spoilt by hand is no draft", () => {
    draft<string>(WHERE).change("x");
    tab.clear();
    const key = device.key(0) ?? "";
    device.setItem(key, "{half");
    expect(draft<string>(WHERE).values.value).toBeNull();
  });
});

describe("last answers", () => {
  test("are dated, and apart for lab and demo lab", () => {
    rememberAnswer("/api/today", { due: [] }, "2026-11-28T08:00:00Z");
    expect(lastAnswer("/api/today")).toEqual({ answer: { due: [] }, at: "2026-11-28T08:00:00Z" });
    place.value = "demo";
    expect(lastAnswer("/api/today")).toBeNull();
  });

  test("make room for new ones: the oldest go", () => {
    for (let i = 0; i < 70; i += 1) rememberAnswer(`/api/${i}`, i, `2026-11-28T08:00:${String(i % 60).padStart(2, "0")}.${i}Z`);
    expect(keysOf("answer|").length).toBe(60);
  });

  test("on a full device make room too", () => {
    for (let i = 0; i < 40; i += 1) rememberAnswer(`/api/${i}`, "x".repeat(100), `2026-11-28T08:${String(i).padStart(2, "0")}:00Z`);
    device.room = [...Array(device.length).keys()].reduce((sum, i) => sum + (device.key(i)?.length ?? 0) + (device.getItem(device.key(i) ?? "")?.length ?? 0), 0);
    rememberAnswer("/api/new", "y".repeat(100), "2026-11-28T09:00:00Z");
    expect(lastAnswer("/api/new")?.answer).toBe("y".repeat(100));
    expect(lastAnswer("/api/0")).toBeNull();
  });

  test("leave with the person, drafts stay", () => {
    rememberAnswer("/api/today", 1, "2026-11-28T08:00:00Z");
    draft<string>(WHERE).change("x");
    forgetAnswers();
    expect(lastAnswer("/api/today")).toBeNull();
    expect(draft<string>(WHERE).values.value).toBe("x");
  });
});
