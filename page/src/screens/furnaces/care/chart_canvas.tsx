import { useEffect, useRef, useState } from "preact/hooks";
import { Button } from "../../../parts";
import { useWidth } from "../../../state/use_width";
import { day, language, number, shade, t, units } from "../../../words";
import { difference, differenceUnit, signedDifference } from "../check/shown";
import { care, type ChartAnswer } from "./answer";
import { dataOf, lastYear } from "./chart_data";
import type { Plots, Range } from "./chart_plot";

/** Errors over time with their ranges and limits, the sums below: values under the cursor, nearer by dragging. On paper it is the server's own picture. */
export function ChartCanvas({ furnace, chart, says }: { furnace: string; chart: ChartAnswer; says: string }) {
  const [box, wide] = useWidth<HTMLDivElement>(640);
  const plots = useRef<Plots | null>(null);
  const [place, setPlace] = useState<number | null>(null);
  const [near, setNear] = useState<Range | null>(null);
  const [failed, setFailed] = useState(false);
  // A canvas does not follow these by itself.
  const shown = shade.value, spoken = language(), unit = units.value;
  useEffect(() => {
    let gone = false;
    const before = plots.current?.range() ?? null;
    const words = { errors: t("care.chart.errors"), sums: t("care.chart.sums", { limit: number(chart.cusum.h) }), onPoint: setPlace, onRange: setNear };
    import("./chart_plot").then(
      ({ plot }) => {
        const room = box.current;
        // Before its width is known nothing is drawn: it would be drawn twice.
        if (gone || !room || Math.round(room.getBoundingClientRect().width) !== wide) return;
        const start = performance.now();
        plots.current = plot(room, room.clientWidth, chart, words, () => performance.measure("chart of checks drawn", { start }));
        if (before) plots.current.show(before);
      },
      () => setFailed(true),
    );
    return () => {
      gone = true;
      plots.current?.end();
      setPlace(null);
    };
  }, [chart, wide, shown, spoken, unit]);
  const last = chart.checks.length - 1;
  const step = (by: number) => plots.current?.point(Math.min(last, Math.max(0, place === null ? last : place + by)));
  const picture = <img class={failed ? "" : "print-only"} src={care.picture(furnace, spoken, unit, "light")} alt={says} />;
  return (
    <figure class="care-chart">
      <p class="care-chart-title screen-only">{t("care.chart.panes", { unit: differenceUnit(), limit: number(chart.cusum.h) })}</p>
      <div class="care-plot screen-only" ref={box} role="img" aria-label={says} />
      {picture}
      <p class="care-under screen-only">{place === null ? t("care.chart.how") : underCursor(chart, place)}</p>
      <div class="actions actions-row screen-only">
        <Button onPress={() => step(-1)}>{t("care.chart.earlier")}</Button>
        <Button onPress={() => step(1)}>{t("care.chart.later")}</Button>
        <Button onPress={() => plots.current?.show(lastYear(dataOf(chart)))}>{t("care.chart.last_year")}</Button>
        <Button disabled={near === null} onPress={() => plots.current?.show(null)}>{t("care.chart.back_to_all")}</Button>
      </div>
      <figcaption class="soft">{t("care.chart.caption", { limit: difference(chart.limit_K) })}</figcaption>
    </figure>
  );
}

function underCursor(chart: ChartAnswer, place: number): string {
  const one = chart.checks[place];
  if (!one) return t("care.chart.how");
  return t("care.chart.under", {
    day: day(one.day), check: one.check, error: signedDifference(one.error_K), unsure: difference(2 * one.standard_uncertainty_K),
    trend: signedDifference(one.trend_K), high: number(one.sum_high, 1), low: number(one.sum_low, 1),
  });
}
