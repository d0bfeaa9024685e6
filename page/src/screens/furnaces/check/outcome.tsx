import type { Finding } from "../../../api/types";
import { PiecesMetView } from "../../../kept/pieces_met";
import { LevelMark } from "../../../parts";
import { asTold, counted, t } from "../../../words";
import type { CheckAnswer, CheckLevel, FiredSinceGood, Sentence } from "./answer";
import { Allowed } from "./allowed";
import { BudgetFold, LineFold } from "./budget";
import { Decide } from "./decide";
import { KeepForm } from "./keep_form";
import { TabsSoFar } from "./map_step";
import { ComparedSoFar } from "./probe_step";
import { RangePicture } from "./range_picture";
import { StepHead } from "./step_head";
import type { CheckNow } from "./use_check";
import { WiresSoFar } from "./wire_step";
import { levelWords } from "./words_of";

export const MARK: Record<Exclude<CheckLevel, "going on">, Finding["level"]> = { good: "sound", "not good": "fault expected", "cannot tell": "cannot tell" };

/** What a check found, how sure that is, and what to do about it. */
export function Outcome({ now, check }: { now: CheckNow; check: CheckAnswer }) {
  if (check.level === "going on") return null;
  const ofDisplay = check.of === "chamber map" ? null : check;
  const judged = ofDisplay?.judged ?? null;
  const kept = check.finished && check.version !== null && now.back === null;
  return (
    <>
      <StepHead of={`outcome ${check.level}`}>
        <LevelMark level={MARK[check.level]} words={levelWords(check.level)} />
      </StepHead>
      <p class="large">{asTold(check.sentence)}</p>
      {ofDisplay && judged ? <RangePicture found={{ ...judged, limit_K: ofDisplay.limit_K }} /> : null}
      {ofDisplay && !kept ? <Allowed now={now} check={ofDisplay} /> : null}
      {kept ? null : <KeepForm now={now} />}
      {kept && ofDisplay && ofDisplay.ways.length > 0 ? <Decide now={now} check={ofDisplay} /> : null}
      {ofDisplay ? <Then sentences={ofDisplay.then} /> : null}
      {ofDisplay ? <FiredSince furnace={now.furnace} since={ofDisplay.fired_since_good} of={check.of} /> : null}
      <Readings now={now} check={check} />
      {ofDisplay ? <LineFold check={ofDisplay} /> : null}
      {ofDisplay && judged ? <BudgetFold check={ofDisplay} /> : null}
    </>
  );
}

export function Then({ sentences }: { sentences: readonly Sentence[] }) {
  if (sentences.length === 0) return null;
  return (
    <section aria-labelledby="then">
      <h2 id="then">{t("check.then")}</h2>
      <ol class="check-then">
        {sentences.map(({ sentence }) => (
          <li key={sentence}>{asTold(sentence)}</li>
        ))}
      </ol>
    </section>
  );
}

export function FiredSince({ furnace, since, of }: { furnace: string; since: FiredSinceGood | null; of: string }) {
  if (since === null) return null;
  return (
    <section aria-labelledby="fired-since">
      <h2 id="fired-since">{t("check.fired.title")}</h2>
      <p>{since.count === 0 ? t("check.fired.none") : since.check ? counted("check.fired.since_check", since.count, { check: since.check }) : counted("check.fired.since_first", since.count)}</p>
      {since.count > 0 ? (
        <details class="fold">
          <summary>{t("check.fired.which")}</summary>
          <PiecesMetView question={`/api/furnaces/${encodeURIComponent(furnace)}/since-good-check?of=${of}`} caption={t("check.fired.title")} empty={t("check.fired.none")} />
        </details>
      ) : null}
    </section>
  );
}

function Readings({ now, check }: { now: CheckNow; check: CheckAnswer }) {
  if (check.of === "temperature") return <WiresSoFar now={now} check={check} />;
  return check.of === "thermocouple" ? <ComparedSoFar now={now} check={check} /> : <TabsSoFar now={now} check={check} />;
}
