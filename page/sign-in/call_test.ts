import { expect, test } from "vitest";
import { goOn } from "./call";

test("after signing in the page goes on to a path of its own and nowhere else", () => {
  expect(goOn("?to=%2Ffiring%2Fcrown-16")).toBe("/firing/crown-16");
  for (const bad of ["//example.org", "https://example.org", "/\\example.org", "/sign-in", "javascript:alert(1)", ""]) {
    expect(goOn(`?to=${encodeURIComponent(bad)}`)).toBe("/");
  }
});
