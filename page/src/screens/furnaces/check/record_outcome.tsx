import { LevelMark, Notice } from "../../../parts";
import { asTold, day, number, t } from "../../../words";
import type { RecordAnswer } from "./answer";
import { KeepForm, type ToKeep } from "./keep_form";
import { FiredSince, MARK, Then } from "./outcome";
import { StepHead } from "./step_head";
import { temperature } from "./shown";
import { levelWords } from "./words_of";

/** What a record tells: the level, each thing that was looked at, the figures, and what to do. */
export function RecordOutcome({ furnace, check, toKeep }: { furnace: string; check: RecordAnswer; toKeep: ToKeep | null }) {
  if (check.level === "going on") return null;
  const rest = check.findings.filter(({ sentence }) => sentence !== check.sentence);
  return (
    <>
      <StepHead of={`outcome ${check.level}`}>
        <LevelMark level={MARK[check.level]} words={levelWords(check.level)} />
      </StepHead>
      <p class="large">{asTold(check.sentence)}</p>
      {toKeep ? <KeepForm now={toKeep} /> : null}
      {rest.map((finding) => (
        <article key={finding.sentence} class="finding">
          {finding.level === "going on" ? null : <LevelMark level={MARK[finding.level]} words={levelWords(finding.level)} />}
          <p class="finding-sentence">{asTold(finding.sentence)}</p>
        </article>
      ))}
      <Figures check={check} />
      {check.forecast ? <p>{forecastWords(check.forecast)}</p> : null}
      <Then sentences={check.then} />
      {check.remarks.map(({ sentence }) => <Notice key={sentence}><p>{sentence}</p></Notice>)}
      <FiredSince furnace={furnace} since={check.fired_since_good} of={check.of} />
    </>
  );
}

function forecastWords(forecast: NonNullable<RecordAnswer["forecast"]>): string {
  const words = { day: day(forecast.day), earliest: day(forecast.earliest_day) };
  return forecast.latest_day ? t("check.record.forecast", { ...words, latest: day(forecast.latest_day) }) : t("check.record.forecast_open", words);
}

function figuresOf(check: RecordAnswer): [string, string][] {
  const figure = (label: string, value: number | null | undefined, digits: number, unit: string): [string, string][] => (value === null || value === undefined ? [] : [[label, `${number(value, digits)} ${unit}`]]);
  if (check.of === "vacuum")
    return [
      ...figure(t("check.figure.time_constant"), check.pump?.time_constant_s, 1, "s"),
      ...figure(t("check.figure.ultimate"), check.pump?.ultimate_mbar, 1, "mbar"),
      ...figure(t("check.figure.to_50"), check.pump?.to_50_mbar_s, 0, "s"),
      ...figure(t("check.figure.leak"), check.chamber?.leak_mbar_per_s, 3, "mbar/s"),
    ];
  return [
    ...figure(t("check.figure.mains"), check.mains_V, 0, "V"),
    ...figure(t("check.figure.gain"), check.run?.gain_at_nominal_K_per_s, 3, "K/s"),
    ...figure(t("check.figure.loss"), check.run?.loss_per_s, 5, "/s"),
    ...figure(t("check.figure.from_500", { low: temperature(500), high: temperature(900) }), check.run?.from_500_to_900_s, 0, "s"),
  ];
}

function Figures({ check }: { check: RecordAnswer }) {
  const figures = figuresOf(check);
  if (figures.length === 0) return null;
  return (
    <table class="pairs">
      <caption>{t("check.figure.title")}</caption>
      <tbody>
        {figures.map(([label, value]) => (
          <tr key={label}>
            <th scope="row">{label}</th>
            <td>{value}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
