// What the proofs of a furnace's guided checks have in common.
import assert from "node:assert/strict";
import { everythingWrong } from "./harness/looks.mjs";

export const key = (page, name) => page.getByRole("button", { name, exact: true });
export const asked = (page, words) => page.locator(".check-question", { hasText: words }).waitFor();

/** No key of a check is smaller than a gloved finger. */
async function bigKeys(page) {
  const small = await page.locator(".check-key, .check-form .button-primary, .check-actions .button-plain").evaluateAll((all) => all.filter((each) => each.getBoundingClientRect().height < 64).map((each) => each.outerHTML.slice(0, 100)));
  assert.deepEqual(small, []);
}

export async function looks(page, name) {
  assert.deepEqual(await everythingWrong(page, name), []);
  await bigKeys(page);
}
