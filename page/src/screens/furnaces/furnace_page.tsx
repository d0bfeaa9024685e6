import type { KeptDocument } from "../../api/client";
import { DocumentPage } from "../../kept/page";
import { PiecesMetView, type PiecesMet } from "../../kept/pieces_met";
import { AnswerView, ButtonLink } from "../../parts";
import { pathOf } from "../../shell/routes";
import { useAnswer } from "../../state/use_answer";
import { momentInFull, t } from "../../words";
import { foundErrors, type FoundError } from "./check/drift_picture";
import { checksOf, KeptChecks, useChecks, type CheckRow } from "./check/kept_checks";
import { difference, signedDifference } from "./check/shown";
import { care, type DueAnswer } from "./care/answer";
import { DueLines, soon } from "./care/due_items";
import { checkedWords, correctionWords, displayWords, fileError_K, valuesOf } from "./reading";

interface SinceCheck extends PiecesMet {
  check: string | null;
  checked_at: string | null;
  checked_by: string | null;
}

export function FurnacePage({ name }: { name: string }) {
  const checks = useChecks(name);
  const begin = () => <ButtonLink kind="primary" to={`${pathOf("furnace", name)}/check`}>{t("check.begin")}</ButtonLink>;
  const above = (document: KeptDocument) => (
    <>
      <Reading document={document} checks={checksOf(name, checks.answer)} />
      <KeptChecks furnace={name} list={checks} />
    </>
  );
  return <DocumentPage kind="furnace" name={name} primary={begin} above={above} below={() => <SinceGoodCheck name={name} />} />;
}

/** The two figures every firing hangs on, as sentences, beside what the last check found; then what falls due. */
function Reading({ document, checks }: { document: KeptDocument; checks: readonly CheckRow[] }) {
  const of = valuesOf(document.values);
  const due = useAnswer<DueAnswer>(care.due(document.name));
  return (
    <section class="sheet" aria-labelledby="reading">
      <h2 id="reading">{t("furnaces.reading")}</h2>
      <p class="large">{displayWords(of)}</p>
      <p>{checkedWords(of)}</p>
      <p>{correctionWords(of)}</p>
      <Found last={foundErrors(checks.filter(tellsOfDisplay)).at(-1)} file_K={fileError_K(of)} />
      <h3>{t("furnaces.due")}</h3>
      <AnswerView of={due}>{(answer) => <Soon answer={answer} />}</AnswerView>
      <div class="actions actions-row screen-only">
        <ButtonLink to={`${pathOf("furnace", document.name)}/due`}>{t("care.all")}</ButtonLink>
        <ButtonLink to={`${pathOf("furnace", document.name)}/chart`}>{t("care.chart_link")}</ButtonLink>
        <ButtonLink to={`${pathOf("furnace", document.name)}/report`}>{t("care.report_link")}</ButtonLink>
      </div>
    </section>
  );
}

/** What found no error with its uncertainty is taken by no rehearsal. */
const tellsOfDisplay = ({ state, standard_uncertainty_K }: CheckRow) => state !== "going on" && standard_uncertainty_K !== null;

function Soon({ answer }: { answer: DueAnswer }) {
  const items = soon(answer.furnaces[0]?.due ?? [], answer.today);
  return items.length > 0 ? <DueLines items={items} /> : <p class="soft">{t("furnaces.nothing_due")}</p>;
}

const SAME_K = 0.05;

/** What the newest check found, and whether the file says another. */
function Found({ last, file_K }: { last: FoundError | undefined; file_K: number | null }) {
  if (!last) return null;
  const said = { check: last.check, at: momentInFull(last.at), error: signedDifference(last.error_K), unsure: difference(last.unsure_K) };
  if (file_K === null) return <p>{t("furnaces.check_found", said)}</p>;
  if (Math.abs(file_K - last.error_K) < SAME_K) return <p>{t("furnaces.check_found_same", said)}</p>;
  return <p>{t("furnaces.check_found_other", { ...said, file: signedDifference(file_K) })}</p>;
}

function SinceGoodCheck({ name }: { name: string }) {
  const about = (met: PiecesMet) => {
    const since = met as SinceCheck;
    return <p>{since.checked_at ? t("furnaces.good_check", { check: since.check ?? "", at: momentInFull(since.checked_at, since.zone), person: since.checked_by ?? "–" }) : t("furnaces.no_good_check")}</p>;
  };
  return (
    <section class="section" aria-labelledby="since">
      <h2 id="since">{t("furnaces.since")}</h2>
      <PiecesMetView question={`/api/furnaces/${encodeURIComponent(name)}/since-good-check`} caption={t("furnaces.since_caption")} empty={t("furnaces.since_none")} about={about} />
    </section>
  );
}
