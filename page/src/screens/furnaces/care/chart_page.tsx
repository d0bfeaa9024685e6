import { useState } from "preact/hooks";
import { Refused } from "../../../api/client";
import { AnswerView, Button, ButtonLink, Empty, Heading, LevelMark, Table, type Column } from "../../../parts";
import { pathOf } from "../../../shell/routes";
import { useAnswer } from "../../../state/use_answer";
import { asTold, counted, day, language, number, t, units, type PlainWord } from "../../../words";
import { Then, MARK } from "../check/outcome";
import { difference, signedDifference } from "../check/shown";
import { levelWords } from "../check/words_of";
import { care, type ChartAnswer, type ChartedCheck } from "./answer";
import { ChartCanvas } from "./chart_canvas";

/** Has this furnace drifted? Its kept checks charted, with what the charts say in words. */
export function ChartPage({ name }: { name: string }) {
  const asked = useAnswer<ChartAnswer>(care.chart(name));
  const none = asked.error instanceof Refused && asked.error.word === "no_answer";
  return (
    <div class="care">
      <p class="check-where"><a class="name-link" href={pathOf("furnace", name)}>{name}</a></p>
      <Heading title={t("care.chart.of", { furnace: name })}>{t("care.chart.title")}</Heading>
      {none ? <Empty title={t("care.chart.none")}><p>{asked.error?.message}</p></Empty> : <AnswerView of={asked}>{(chart) => <Chart name={name} chart={chart} />}</AnswerView>}
      <div class="actions actions-row screen-only">
        <ButtonLink kind="primary" to={`${pathOf("furnace", name)}/check`}>{t("check.begin")}</ButtonLink>
        {asked.answer ? <a class="button button-plain" href={care.picture(name, language(), units.value)} target="_blank" rel="noopener">{t("care.chart.print")}</a> : null}
      </div>
    </div>
  );
}

function Chart({ name, chart }: { name: string; chart: ChartAnswer }) {
  return (
    <>
      <p><LevelMark level={MARK[chart.outcome]} words={levelWords(chart.outcome)} /></p>
      <p class="large">{asTold(chart.finding.sentence)}</p>
      <p>{asTold(chart.outlook.sentence)}</p>
      <ChartCanvas furnace={name} chart={chart} says={`${t("care.chart.of", { furnace: name })}. ${asTold(chart.finding.sentence)}`} />
      <Then sentences={[chart.next]} />
      <section class="section" aria-labelledby="signals">
        <h2 id="signals">{t("care.chart.signals")}</h2>
        <ul>{chart.signals.map(({ sentence }) => <li key={sentence}>{asTold(sentence)}</li>)}</ul>
        <p class="soft">{t("care.chart.average_run", { checks: number(chart.average_run, 0) })}</p>
      </section>
      <Restarts chart={chart} />
      <LeftOut chart={chart} />
      <CheckTable checks={chart.checks} />
    </>
  );
}

const SHOWN_AT_FIRST = 120;

/** The numbers of the chart for those who do not see it, newest first; written when it is opened, for ten years of them are many. */
function CheckTable({ checks }: { checks: readonly ChartedCheck[] }) {
  const [open, setOpen] = useState(false);
  const [most, setMost] = useState(SHOWN_AT_FIRST);
  const rows = open ? checks.slice(-most).reverse() : [];
  return (
    <details class="fold" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{t("care.chart.checks")}</summary>
      <Table caption={t("care.chart.checks")} quiet columns={COLUMNS()} rows={rows} keyOf={(row) => row.check} />
      {open && checks.length > most ? <Button onPress={() => setMost(checks.length)}>{counted("care.chart.more", checks.length - most)}</Button> : null}
    </details>
  );
}

const COLUMNS = (): Column<ChartedCheck>[] => [
  { key: "check", head: t("care.chart.check"), names: true, cell: (row) => <a class="name-link" href={pathOf("check", row.check)}>{row.check}</a> },
  { key: "day", head: t("care.chart.day"), cell: (row) => day(row.day) },
  { key: "error", head: t("check.line.error"), number: true, cell: (row) => `${signedDifference(row.error_K)} ± ${difference(2 * row.standard_uncertainty_K)}` },
  { key: "trend", head: t("care.chart.trend"), number: true, cell: (row) => signedDifference(row.trend_K) },
  { key: "high", head: t("care.chart.high"), number: true, cell: (row) => number(row.sum_high, 2) },
  { key: "low", head: t("care.chart.low"), number: true, cell: (row) => number(row.sum_low, 2) },
];

const BEGINS: Readonly<Record<ChartAnswer["runs"][number]["begins"], PlainWord>> = {
  "first check": "care.chart.begins.first",
  adjusted: "care.chart.begins.adjusted",
  "correction changed": "care.chart.begins.keyed",
  repaired: "care.chart.begins.repaired",
};

function Restarts({ chart }: { chart: ChartAnswer }) {
  const again = chart.runs.slice(1);
  if (again.length === 0) return null;
  return (
    <section class="section" aria-labelledby="restarts">
      <h2 id="restarts">{t("care.chart.restarts")}</h2>
      <ol>{again.map((run) => <li key={run.from}>{`${day(run.day)}: ${t(BEGINS[run.begins])}${run.repaired ? `, ${run.repaired}` : ""}`}</li>)}</ol>
    </section>
  );
}

function LeftOut({ chart }: { chart: ChartAnswer }) {
  if (chart.left_out.length === 0) return null;
  return (
    <section class="section" aria-labelledby="left-out">
      <h2 id="left-out">{t("care.chart.left_out")}</h2>
      <ul>{chart.left_out.map(({ check, sentence }) => <li key={check}>{asTold(sentence)}</li>)}</ul>
    </section>
  );
}
