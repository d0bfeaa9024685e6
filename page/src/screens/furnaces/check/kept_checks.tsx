import { paths, type DocumentList, type DocumentRow } from "../../../api/client";
import { AnswerView, Table, type Column } from "../../../parts";
import { pathOf } from "../../../shell/routes";
import { waitingDrafts } from "../../../state/drafts";
import { useAnswer, type Answered } from "../../../state/use_answer";
import { moment, momentInFull, t } from "../../../words";
import { DriftPicture } from "./drift_picture";
import { GUIDED, RECORDED, type CheckKind } from "./answer";
import { signedDifference } from "./shown";
import { pathOfCheck, placeOf } from "./use_check";
import { kindOf, kindWords, levelOf, levelWords } from "./words_of";

export interface CheckRow extends DocumentRow {
  furnace: string;
  of: string;
  next: string | null;
  /** Wires, comparisons and tabs that stand in it. */
  readings: number;
  /** Of the display; null where none was looked for. */
  error_K: number | null;
  standard_uncertainty_K: number | null;
  /** What the error was judged by. */
  limit_K: number | null;
}

const SHOWN = 12;

export type CheckList = Answered<DocumentList<CheckRow>>;

export function useChecks(furnace: string): CheckList {
  return useAnswer(paths.documents("check", { word: furnace }));
}

/** Of this furnace, the newest first; the list holds whatever bears its name. */
export function checksOf(furnace: string, list: DocumentList<CheckRow> | null): readonly CheckRow[] {
  return (list?.rows ?? []).filter((row) => row.furnace === furnace).sort((a, b) => (b.at ?? "").localeCompare(a.at ?? ""));
}

/** What stands of the checks of a furnace: those that go on, then the last ones with how they came out. */
export function KeptChecks({ furnace, list }: { furnace: string; list: CheckList }) {
  return (
    <section class="section" aria-labelledby="checks">
      <h2 id="checks">{t("check.kept.title")}</h2>
      <AnswerView of={list}>
        {(answer) => {
          const mine = checksOf(furnace, answer);
          return (
            <>
              <GoingOn furnace={furnace} rows={mine.filter((row) => row.state === "going on")} />
              <DriftPicture checks={mine} />
              <Finished rows={mine.filter((row) => row.state !== "going on").slice(0, SHOWN)} />
            </>
          );
        }}
      </AnswerView>
    </section>
  );
}

/** Kept ones, and what was begun on this device and is not kept yet. */
function GoingOn({ furnace, rows }: { furnace: string; rows: readonly CheckRow[] }) {
  const begun = waitingDrafts().flatMap((draft) => {
    const kind: CheckKind | undefined = [...GUIDED, ...RECORDED].find((each) => draft.screen === "furnaces" && draft.document === placeOf(furnace, each, null));
    return kind ? [{ kind, at: draft.at }] : [];
  });
  if (rows.length + begun.length === 0) return null;
  return (
    <ul class="rows">
      {rows.map((row) => {
        const kind = kindOf(row.of);
        return (
          <li key={row.name}>
            <a class="row-link row-tall" href={kind ? pathOfCheck(furnace, kind, row.name) : pathOf("check", row.name)}>
              <strong>{t("check.kept.goes_on", { what: kind ? kindWords(kind) : row.of })}</strong>
              <span>{[row.name, row.at ? moment(row.at) : ""].filter(Boolean).join(" · ")}</span>
            </a>
          </li>
        );
      })}
      {begun.map(({ kind, at }) => (
        <li key={kind}>
          <a class="row-link row-tall" href={pathOfCheck(furnace, kind, null)}>
            <strong>{t("check.kept.goes_on", { what: kindWords(kind) })}</strong>
            <span>{t("check.kept.on_device", { at: moment(at) })}</span>
          </a>
        </li>
      ))}
    </ul>
  );
}

function Finished({ rows }: { rows: readonly CheckRow[] }) {
  if (rows.length === 0) return <p class="soft">{t("check.kept.none")}</p>;
  const columns: Column<CheckRow>[] = [
    { key: "at", head: t("check.kept.at"), names: true, cell: (row) => <a class="name-link" href={placeOfFinished(row)}>{row.at ? momentInFull(row.at) : row.name}</a> },
    { key: "of", head: t("check.kept.of"), cell: (row) => ofWords(row.of) },
    { key: "error", head: t("check.line.error"), number: true, cell: (row) => (row.error_K === null ? "–" : signedDifference(row.error_K)) },
    { key: "state", head: t("check.kept.outcome"), cell: (row) => outcomeWords(row.state) },
  ];
  return <Table caption={t("check.kept.title")} quiet columns={columns} rows={rows} keyOf={(row) => row.name} />;
}

/** One that was guided shows its outcome as then; else what was written down. */
function placeOfFinished(row: CheckRow): string {
  const kind = kindOf(row.of);
  return kind && row.readings > 0 ? pathOfCheck(row.furnace, kind, row.name) : pathOf("check", row.name);
}

function ofWords(of: string): string {
  const kind = kindOf(of);
  return kind ? kindWords(kind) : of;
}

function outcomeWords(state: string): string {
  const level = levelOf(state);
  return level ? levelWords(level) : state;
}
