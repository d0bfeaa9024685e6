import type { Finding } from "../../../api/types";
import { PiecesMetView } from "../../../kept/pieces_met";
import { LevelMark } from "../../../parts";
import { counted, t } from "../../../words";
import type { CheckAnswer, CheckLevel, FiredSinceGood, Sentence } from "./answer";
import { BudgetFold, LineFold } from "./budget";
import { Decide } from "./decide";
import { KeepForm } from "./keep_form";
import { TabsSoFar } from "./map_step";
import { ComparedSoFar } from "./probe_step";
import { RangePicture, type FoundRange } from "./range_picture";
import { StepHead } from "./step_head";
import type { CheckNow } from "./use_check";
import { WiresSoFar } from "./wire_step";
import { levelWords } from "./words_of";

export const MARK: Record<Exclude<CheckLevel, "going on">, Finding["level"]> = { good: "sound", "not good": "fault expected", "cannot tell": "cannot tell" };

/** What a check found, how sure that is, and what to do about it. */
export function Outcome({ now, check }: { now: CheckNow; check: CheckAnswer }) {
  if (check.level === "going on") return null;
  const ofDisplay = check.of === "chamber map" ? null : check;
  const found = foundIn(check);
  const kept = check.finished && check.version !== null && now.back === null;
  return (
    <>
      <StepHead of={`outcome ${check.level}`}>
        <LevelMark level={MARK[check.level]} words={levelWords(check.level)} />
      </StepHead>
      <p class="large">{check.sentence}</p>
      {found ? <RangePicture found={found} /> : null}
      {kept ? null : <KeepForm now={now} />}
      {kept && ofDisplay && ofDisplay.ways.length > 0 ? <Decide now={now} check={ofDisplay} /> : null}
      {ofDisplay ? <Then sentences={ofDisplay.then} /> : null}
      {ofDisplay ? <FiredSince furnace={now.furnace} since={ofDisplay.fired_since_good} of={check.of} /> : null}
      <Readings check={check} />
      {ofDisplay ? <LineFold check={ofDisplay} /> : null}
      {ofDisplay && found ? <BudgetFold check={ofDisplay} whole_K={found.standard_uncertainty_K} /> : null}
    </>
  );
}

interface Found extends FoundRange {
  standard_uncertainty_K: number;
}

/** Error and range, k = 2; of a comparison its largest. */
function foundIn(check: CheckAnswer): Found | null {
  if (check.of === "chamber map" || check.found === null) return null;
  const { limit_K } = check;
  if (check.of === "temperature") {
    const { error_K, standard_uncertainty_K, range_low_K, range_high_K } = check.found;
    return { error_K, standard_uncertainty_K, low_K: range_low_K, high_K: range_high_K, limit_K };
  }
  const worst = check.found.reduce<(typeof check.found)[number] | null>((most, each) => (most && Math.abs(most.error_K) >= Math.abs(each.error_K) ? most : each), null);
  if (worst === null) return null;
  const { error_K, standard_uncertainty_K } = worst;
  return { error_K, standard_uncertainty_K, low_K: error_K - 2 * standard_uncertainty_K, high_K: error_K + 2 * standard_uncertainty_K, limit_K };
}

export function Then({ sentences }: { sentences: readonly Sentence[] }) {
  if (sentences.length === 0) return null;
  return (
    <section aria-labelledby="then">
      <h2 id="then">{t("check.then")}</h2>
      <ol class="check-then">
        {sentences.map(({ sentence }) => (
          <li key={sentence}>{sentence}</li>
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

function Readings({ check }: { check: CheckAnswer }) {
  if (check.of === "temperature") return <WiresSoFar check={check} />;
  return check.of === "thermocouple" ? <ComparedSoFar check={check} /> : <TabsSoFar check={check} />;
}
