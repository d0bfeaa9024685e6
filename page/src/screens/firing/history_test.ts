import { expect, it } from "vitest";
import { began, redone, typed, undone } from "./history";

it("joins what is typed into one field without a pause to one step", () => {
  let history = began("817");
  history = typed(history, "81", "to", 0);
  history = typed(history, "82", "to", 200);
  history = typed(history, "827", "to", 900);
  expect(undone(history).now).toBe("817");
});

it("makes another step of another field, and after a pause", () => {
  let history = typed(began("a"), "b", "to", 0);
  history = typed(history, "c", "hold", 100);
  history = typed(history, "d", "hold", 5000);
  expect([undone(history).now, undone(undone(history)).now, undone(undone(undone(history))).now]).toEqual(["c", "b", "a"]);
});

it("does again what was taken back, until something else is typed", () => {
  const history = typed(typed(began(1), 2, null, 0), 3, null, 0);
  const back = undone(undone(history));
  expect(redone(back).now).toBe(2);
  expect(redone(redone(back)).now).toBe(3);
  expect(redone(typed(back, 9, null, 0)).now).toBe(9);
});

it("stays where there is nothing to take back", () => {
  const history = began(1);
  expect(undone(history)).toBe(history);
  expect(redone(history)).toBe(history);
});

it("never joins a step to the state it was taken back to", () => {
  const history = undone(typed(typed(began(1), 2, "to", 0), 3, "to", 100));
  expect(undone(typed(history, 4, "to", 200)).now).toBe(1);
});
