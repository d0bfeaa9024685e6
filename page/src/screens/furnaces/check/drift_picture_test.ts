import { expect, test } from "vitest";
import { foundErrors } from "./drift_picture";
import type { CheckRow } from "./kept_checks";

const row = (at: string, more: Partial<CheckRow>): CheckRow => ({ at, state: "good", error_K: 2, standard_uncertainty_K: 0.5, limit_K: 5, ...more }) as CheckRow;

test("errors found stand oldest first, each with what it was judged by; a check that goes on or found none is left out", () => {
  const rows = [row("2031-03-02T10:00:00Z", { error_K: -4, limit_K: 8 }), row("2031-02-02T10:00:00Z", {}), row("2031-04-02T10:00:00Z", { state: "going on" }), row("2031-05-02T10:00:00Z", { error_K: null, limit_K: null })];
  expect(foundErrors(rows).map(({ error_K, unsure_K, limit_K }) => [error_K, unsure_K, limit_K])).toEqual([[2, 1, 5], [-4, 1, 8]]);
});
