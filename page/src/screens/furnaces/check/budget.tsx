import { Table, type Column } from "../../../parts";
import { number, t } from "../../../words";
import type { BudgetPart, ErrorAt, OfDisplay } from "./answer";
import { difference, signedDifference, temperature } from "./shown";
import { standingWords } from "./words_of";

/** What the uncertainty of a found error is made of: each part with where it comes from, and how good that is. */
export function BudgetFold({ check }: { check: OfDisplay }) {
  if (check.budget.length === 0) return null;
  const whole_K = Math.hypot(...check.budget.map((part) => part.standard_uncertainty_K));
  const columns: Column<BudgetPart>[] = [
    { key: "of", head: t("check.budget.of"), names: true, cell: (part) => part.sentence },
    { key: "size", head: t("check.budget.size"), number: true, cell: (part) => difference(part.standard_uncertainty_K, 2) },
    { key: "standing", head: t("check.budget.standing"), cell: (part) => standingWords(part.standing) },
    { key: "source", head: t("check.budget.source"), cell: (part) => part.source },
  ];
  return (
    <details class="fold">
      <summary>{t("check.budget.title")}</summary>
      <Table caption={t("check.budget.title")} quiet columns={columns} rows={check.budget} keyOf={(part) => part.sentence} />
      <p>{t("check.budget.whole", { size: difference(whole_K), unsure: difference(2 * whole_K) })}</p>
    </details>
  );
}

/** The error at the temperatures one fires at. */
export function LineFold({ check }: { check: OfDisplay }) {
  if (!check.line) return null;
  const columns: Column<ErrorAt>[] = [
    { key: "at", head: t("check.line.at"), names: true, cell: (row) => temperature(row.temperature_C) },
    { key: "error", head: t("check.line.error"), number: true, cell: (row) => signedDifference(row.error_K) },
    { key: "unsure", head: t("check.line.unsure"), number: true, cell: (row) => `± ${difference(2 * row.standard_uncertainty_K)}` },
  ];
  return (
    <details class="fold">
      <summary>{t("check.line.title")}</summary>
      <p>{check.line.sentence}</p>
      <Table caption={t("check.line.title")} quiet columns={columns} rows={check.line.at} keyOf={(row) => number(row.temperature_C)} />
    </details>
  );
}
