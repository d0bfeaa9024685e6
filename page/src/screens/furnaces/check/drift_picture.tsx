import { day, momentInFull, t } from "../../../words";
import type { CheckRow } from "./kept_checks";
import { difference, signedDifference } from "./shown";

const WIDE = 640, TALL = 220, LEFT = 70, RIGHT = 30, TOP = 20, FOOT = 40;

export interface FoundError {
  check: string;
  at: string;
  ms: number;
  error_K: number;
  unsure_K: number;
  limit_K: number;
}

/** Finished checks of the display that found an error, oldest first. */
export function foundErrors(rows: readonly CheckRow[]): FoundError[] {
  return rows
    .flatMap(({ name, at, state, error_K, standard_uncertainty_K, limit_K }) =>
      at !== null && state !== "going on" && error_K !== null && limit_K !== null ? [{ check: name, at, ms: Date.parse(at), error_K, unsure_K: 2 * (standard_uncertainty_K ?? 0), limit_K }] : [],
    )
    .sort((a, b) => a.ms - b.ms);
}

/** The errors found over time: a mark a check, its range as a line, what the newest was judged by dashed. From two checks on. */
export function DriftPicture({ checks }: { checks: readonly CheckRow[] }) {
  const all = foundErrors(checks);
  const [first, last] = [all[0], all.at(-1)];
  if (!first || !last || all.length < 2) return null;
  const { limit_K } = last;
  const most = 1.1 * Math.max(limit_K, ...all.map((one) => Math.abs(one.error_K) + one.unsure_K));
  const x = (ms: number) => Math.round(10 * (LEFT + ((ms - first.ms) / Math.max(1, last.ms - first.ms)) * (WIDE - LEFT - RIGHT))) / 10;
  const y = (K: number) => Math.round(10 * (TOP + ((most - K) / (2 * most)) * (TALL - TOP - FOOT))) / 10;
  const says = all.map((one) => t("check.kept.chart_says", { at: momentInFull(one.at), error: signedDifference(one.error_K), unsure: difference(one.unsure_K) })).join("; ");
  return (
    <figure class="drift">
      <svg viewBox={`0 0 ${WIDE} ${TALL}`} role="img" aria-label={says}>
        {[limit_K, 0, -limit_K].map((K) => (
          <g key={K}>
            <line x1={LEFT} x2={WIDE - RIGHT / 2} y1={y(K)} y2={y(K)} class={K === 0 ? "drift-zero" : "drift-limit"} />
            <text x={LEFT - 8} y={y(K) + 5} text-anchor="end">{signedDifference(K)}</text>
          </g>
        ))}
        {all.map((one) => (
          <g key={one.at}>
            <line x1={x(one.ms)} x2={x(one.ms)} y1={y(one.error_K - one.unsure_K)} y2={y(one.error_K + one.unsure_K)} class="drift-bar" />
            <circle cx={x(one.ms)} cy={y(one.error_K)} r="6" class="drift-mark" />
          </g>
        ))}
        <text x={LEFT} y={TALL - 12}>{day(first.at.slice(0, 10))}</text>
        <text x={WIDE - RIGHT / 2} y={TALL - 12} text-anchor="end">{day(last.at.slice(0, 10))}</text>
      </svg>
      <figcaption class="soft">{t("check.kept.chart", { limit: difference(limit_K) })}</figcaption>
    </figure>
  );
}
