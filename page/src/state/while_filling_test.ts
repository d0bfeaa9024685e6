import { describe, expect, test } from "vitest";
import { ofWhatIsTyped } from "./while_filling";

describe("mistakes while a form is filled", () => {
  const missing = { of: "", key: "altitude", sentence: "altitude is missing" };
  const wrong = { of: "", key: "mass", sentence: "mass: \"heavy\" is no mass" };
  const whole = { of: "", key: "", sentence: "the text cannot be read" };
  test("are those of what was typed", () => {
    expect(ofWhatIsTyped([missing, wrong, whole], { mass: "heavy", label: "light" })).toEqual([wrong]);
  });
  test("are none of what was emptied again", () => {
    expect(ofWhatIsTyped([wrong], { mass: "" })).toEqual([]);
  });
});
