import { t } from "../../../words";
import { difference, signedDifference } from "./shown";

const WIDE = 600, TALL = 104, LINE_Y = 52;

export interface FoundRange {
  error_K: number;
  low_K: number;
  high_K: number;
  limit_K: number;
}

/** Of the drawing, from what is left of all to what is right of all, with room at both ends. */
export function scaleOf({ low_K, high_K, limit_K }: FoundRange): (K: number) => number {
  const most = 1.15 * Math.max(limit_K, Math.abs(low_K), Math.abs(high_K));
  return (K) => Math.round(((K + most) / (2 * most)) * WIDE * 10) / 10;
}

/** The error with its range against what is allowed: a line with ends over a framed band, the words beside it. */
export function RangePicture({ found }: { found: FoundRange }) {
  const at = scaleOf(found);
  const { error_K, low_K, high_K, limit_K } = found;
  const says = t("check.range.says", { error: signedDifference(error_K), low: signedDifference(low_K), high: signedDifference(high_K), limit: difference(limit_K) });
  return (
    <figure class="range">
      <svg viewBox={`0 0 ${WIDE} ${TALL}`} role="img" aria-label={says}>
        <rect x={at(-limit_K)} y="14" width={at(limit_K) - at(-limit_K)} height="76" class="range-allowed" />
        <line x1={at(0)} y1="8" x2={at(0)} y2="96" class="range-zero" />
        <path d={`M${at(low_K)} ${LINE_Y}H${at(high_K)}M${at(low_K)} ${LINE_Y - 13}v26M${at(high_K)} ${LINE_Y - 13}v26`} class="range-found" />
        <path d={`M${at(error_K)} ${LINE_Y - 11}l11 11l-11 11l-11 -11z`} class="range-error" />
      </svg>
      <figcaption>
        <p>{says}</p>
        <p class="soft">{t("check.range.key")}</p>
      </figcaption>
    </figure>
  );
}
