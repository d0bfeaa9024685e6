import { useWidth } from "../../../state/use_width";
import { day, number, t } from "../../../words";
import { difference, signedDifference } from "../check/shown";
import type { ChartAnswer } from "./answer";
import { daysOf, FOOT, LEFT, lineOf, mostError, pane, RIGHT, type Pane } from "./chart_scale";

const DAY = 86_400_000;
const TOP = 22, ERRORS = 250, BETWEEN = 34, SUMS = 110;

/** Display errors over time with the limit they are judged by, their trend and where it leads; below it the two sums. */
export function ChartPicture({ chart, says }: { chart: ChartAnswer; says: string }) {
  const [box, wide] = useWidth<HTMLElement>(640);
  const days = daysOf(chart);
  const most = mostError(chart), sums = 1.15 * Math.max(chart.cusum.h, ...chart.checks.flatMap((one) => [one.sum_high, one.sum_low]));
  const errors = pane(wide, days, TOP, TOP + ERRORS, -most, most);
  const below = TOP + ERRORS + BETWEEN;
  const high = pane(wide, days, below, below + SUMS, 0, sums);
  const tall = below + SUMS + FOOT;
  return (
    <figure class="drift care-chart" ref={box}>
      <svg viewBox={`0 0 ${wide} ${tall}`} role="img" aria-label={says}>
        <text x={LEFT} y={TOP - 7}>{t("care.chart.errors")}</text>
        <Levels wide={wide} to={errors} limit_K={chart.limit_K} />
        <Restarts chart={chart} to={errors} bottom={below + SUMS} />
        <path class="care-trend" d={lineOf(chart.checks.map((one) => ({ x: errors.x(Date.parse(one.at)), y: errors.y(one.trend_K), run: one.run })))} />
        <Ahead chart={chart} to={errors} until={days.forecastTo} />
        <Errors chart={chart} to={errors} />
        <text x={LEFT} y={below - 8}>{t("care.chart.sums", { limit: number(chart.cusum.h) })}</text>
        <line x1={LEFT} x2={wide - RIGHT} y1={high.y(0)} y2={high.y(0)} class="drift-zero" />
        <line x1={LEFT} x2={wide - RIGHT} y1={high.y(chart.cusum.h)} y2={high.y(chart.cusum.h)} class="drift-limit" />
        <text x={LEFT - 6} y={high.y(chart.cusum.h) + 5} text-anchor="end">{number(chart.cusum.h)}</text>
        <path class="care-sum" d={lineOf(chart.checks.map((one) => ({ x: high.x(Date.parse(one.at)), y: high.y(one.sum_high), run: one.run })))} />
        <path class="care-sum care-sum-low" d={lineOf(chart.checks.map((one) => ({ x: high.x(Date.parse(one.at)), y: high.y(one.sum_low), run: one.run })))} />
        <text x={LEFT} y={tall - 10}>{day(chart.checks[0]?.day ?? "")}</text>
        {days.to - days.from < DAY ? null : <text x={wide - RIGHT} y={tall - 10} text-anchor="end">{day(new Date(days.to).toISOString().slice(0, 10))}</text>}
      </svg>
      <figcaption class="soft">{t("care.chart.caption", { limit: difference(chart.limit_K) })}</figcaption>
    </figure>
  );
}

function Levels({ wide, to, limit_K }: { wide: number; to: Pane; limit_K: number }) {
  return (
    <>
      {[limit_K, 0, -limit_K].map((K) => (
        <g key={K}>
          <line x1={LEFT} x2={wide - RIGHT} y1={to.y(K)} y2={to.y(K)} class={K === 0 ? "drift-zero" : "drift-limit"} />
          <text x={LEFT - 6} y={to.y(K) + 5} text-anchor="end">{signedDifference(K)}</text>
        </g>
      ))}
    </>
  );
}

/** Where the charts were begun anew; the numbers stand in the list below. */
function Restarts({ chart, to, bottom }: { chart: ChartAnswer; to: Pane; bottom: number }) {
  return (
    <>
      {chart.runs.slice(1).map((run, at) => {
        const first = chart.checks.find((one) => one.check === run.from);
        if (!first) return null;
        const x = to.x(Date.parse(first.at));
        return (
          <g key={run.from}>
            <line x1={x} x2={x} y1={TOP} y2={bottom} class="care-restart" />
            <text x={x + 4} y={TOP + 14}>{at + 1}</text>
          </g>
        );
      })}
    </>
  );
}

function Ahead({ chart, to, until }: { chart: ChartAnswer; to: Pane; until: number | null }) {
  const last = chart.checks.at(-1);
  if (until === null || !last || !chart.forecast) return null;
  const from = Date.parse(last.at), { error_K, slope_K_per_month } = chart.forecast;
  const then = error_K + (slope_K_per_month * (until - from)) / (30.4375 * 86_400_000);
  return <line x1={to.x(from)} x2={to.x(until)} y1={to.y(error_K)} y2={to.y(then)} class="care-ahead" />;
}

function Errors({ chart, to }: { chart: ChartAnswer; to: Pane }) {
  return (
    <>
      {chart.checks.map((one) => {
        const x = to.x(Date.parse(one.at)), y = to.y(one.error_K);
        return (
          <g key={one.check}>
            <line x1={x} x2={x} y1={to.y(one.error_K - 2 * one.standard_uncertainty_K)} y2={to.y(one.error_K + 2 * one.standard_uncertainty_K)} class="drift-bar" />
            {one.sum_beyond ? <rect x={x - 6} y={y - 6} width="12" height="12" class="drift-mark" /> : <circle cx={x} cy={y} r="5" class={one.set_aside ? "care-aside" : "drift-mark"} />}
          </g>
        );
      })}
    </>
  );
}
