import type { Finding } from "../../../api/types";
import { AnswerView, Heading, LevelMark } from "../../../parts";
import { pathOf } from "../../../shell/routes";
import { useAnswer } from "../../../state/use_answer";
import { asTold, day, language, number, t, units, type PlainWord } from "../../../words";
import { Then } from "../check/outcome";
import { difference } from "../check/shown";
import { care, type ReportAnswer, type ReportedCheck } from "./answer";
import { workWords } from "./words_of";

const MARKS: Readonly<Record<ReportAnswer["outcome"], { level: Finding["level"]; words: PlainWord }>> = {
  qualified: { level: "sound", words: "care.report.qualified" },
  "not qualified": { level: "fault expected", words: "care.report.not_qualified" },
  "not yet qualified": { level: "cannot tell", words: "care.report.not_yet" },
  "out of use": { level: "fault expected", words: "care.report.out_of_use" },
};

const STATES: Readonly<Record<ReportAnswer["works"][number]["state"], PlainWord>> = {
  good: "check.level.good",
  "not good": "check.level.not_good",
  "cannot tell": "check.level.cannot_tell",
  "to be done": "care.report.to_be_done",
  "not wanted again": "care.report.not_wanted",
};

/** Is this furnace qualified? As found and as left, what is open, and the sheet to print and sign. */
export function ReportPage({ name }: { name: string }) {
  const asked = useAnswer<ReportAnswer>(care.report(name));
  return (
    <div class="care">
      <p class="check-where"><a class="name-link" href={pathOf("furnace", name)}>{name}</a></p>
      <Heading title={t("care.report.of", { furnace: name })}>{t("care.report.title")}</Heading>
      <AnswerView of={asked}>{(report) => <Report name={name} report={report} />}</AnswerView>
    </div>
  );
}

function Report({ name, report }: { name: string; report: ReportAnswer }) {
  const { level, words } = MARKS[report.outcome];
  return (
    <>
      <p><LevelMark level={level} words={t(words)} /></p>
      <p class="large">{asTold(report.finding.sentence)}</p>
      <div class="actions actions-row screen-only">
        <a class="button button-primary" href={care.sheet(name, language(), units.value, "a4")} target="_blank" rel="noopener">{t("care.report.sheet")}</a>
        <a class="button button-plain" href={care.sheet(name, language(), units.value, "letter")} target="_blank" rel="noopener">{t("care.report.letter")}</a>
      </div>
      <Then sentences={[report.next]} />
      <section class="section" aria-labelledby="works">
        <h2 id="works">{t("care.report.works")}</h2>
        <ul class="care-list">
          {report.works.map((line) => (
            <li key={line.work} class="sheet">
              <h3>{workWords(line.work)}</h3>
              <p>{t(STATES[line.state])}</p>
              <Came which={t("care.report.as_found")} check={line.as_found} />
              <Came which={t("care.report.as_left")} check={line.as_left} />
            </li>
          ))}
        </ul>
      </section>
      <p>{t("care.report.specimens", { good: number(report.specimens.as_wanted), bad: number(report.specimens.not_as_wanted), wanted: number(report.specimens.wanted) })}</p>
      <section class="section" aria-labelledby="changes">
        <h2 id="changes">{t("care.report.changes")}</h2>
        <ul>{report.changes.map((one) => <li key={`${one.on} ${one.by}`}>{`${day(one.on)}: ${asTold(one.reason.sentence)}`}</li>)}</ul>
      </section>
    </>
  );
}

function Came({ which, check }: { which: string; check: ReportedCheck | null }) {
  if (check === null) return null;
  const found = check.found_parts.map(({ sentence }) => sentence).filter((part) => part !== "-");
  const limit = check.limit_K === null ? [] : [t("care.report.limit", { limit: difference(check.limit_K) })];
  return (
    <p class="soft">
      {`${which}, ${day(check.on)}: `}
      {[t(STATES[check.came]), ...found, ...limit].join(", ")}
      {" ("}
      <a href={pathOf("check", check.check)}>{check.check}</a>
      {check.by ? `, ${check.by})` : ")"}
    </p>
  );
}
