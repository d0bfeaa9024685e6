import { useState } from "preact/hooks";
import { paths, type DocumentList, type DocumentRow, type Kind } from "../../api/client";
import { Pages } from "../../kept/pages";
import { newOf } from "../../kept/place";
import { AnswerView, ButtonLink, Choice, Empty, Field, Heading, type Option } from "../../parts";
import { ask, asked } from "../../shell/navigation";
import { pathOf } from "../../shell/routes";
import { useAnswer } from "../../state/use_answer";
import { counted, day, momentInFull, t, type PlainWord } from "../../words";
import { Shelves } from "./shelves";

/** What a list of 1000 rows a page is asked for at once. */
const PAGE = 1000;

/** States that a list may be narrowed to; the server knows them by these words. */
const STATES: Partial<Record<Kind, readonly { value: string; word: PlainWord }[]>> = {
  case: [{ value: "open", word: "records.state.open" }, { value: "closed", word: "records.state.closed" }],
  lot: [{ value: "in use", word: "records.state.in_use" }, { value: "used up", word: "records.state.used_up" }],
  check: [{ value: "going on", word: "records.state.going_on" }, { value: "good", word: "records.state.good" }, { value: "not good", word: "records.state.not_good" }, { value: "cannot tell", word: "records.state.cannot_tell" }],
  deviation: [{ value: "open", word: "records.state.undecided" }, { value: "decided", word: "records.state.decided" }, { value: "released", word: "records.state.released" }],
};

export interface KindRow extends DocumentRow {
  teeth?: number[];
  pieces?: string[];
  wanted?: string | null;
  expires?: string | null;
}

/** All of a kind, found by a word: code, tooth, piece, label or a word of the note. */
export function KindList({ kind, title, add }: { kind: Kind; title: string; add: string | null }) {
  const word = asked.value.get("word") ?? "";
  const state = asked.value.get("state") ?? (kind === "case" ? "open" : "");
  const [page, setPage] = useState(1);
  const list = useAnswer<DocumentList<KindRow>>(paths.documents(kind, { word, state: state === "all" ? "" : state, ...(page > 1 ? { page } : {}) }));
  const change = (part: Record<string, string>) => {
    setPage(1);
    ask({ word, state, ...part });
  };
  const states = (STATES[kind] ?? []).map((one): Option => ({ value: one.value, label: t(one.word) }));
  return (
    <>
      <Heading>{title}</Heading>
      <Shelves at={kind} />
      <form class="finder screen-only" role="search" aria-label={title} onSubmit={(event) => event.preventDefault()}>
        <Field kind="search" label={t("records.word")} help={kind === "case" ? t("records.word_case") : t("records.word_help")} value={word} onInput={(text) => change({ word: text })} />
        {states.length > 0 ? <Choice label={t("records.state.label")} options={[{ value: "all", label: t("records.state.all") }, ...states]} empty={null} value={state || "all"} onChoose={(value) => change({ state: value })} /> : null}
      </form>
      <AnswerView of={list}>
        {(answer) => (
          <>
            <Rows kind={kind} rows={answer.rows} found={answer.count} searched={word !== ""} />
            <Pages page={answer.page} pages={Math.max(1, Math.ceil(answer.count / PAGE))} count={answer.count} onGo={setPage} />
          </>
        )}
      </AnswerView>
      {add === null ? null : (
        <div class="actions screen-only">
          <ButtonLink kind="primary" to={newOf(kind)}>{add}</ButtonLink>
        </div>
      )}
    </>
  );
}

function Rows({ kind, rows, found, searched }: { kind: Kind; rows: readonly KindRow[]; found: number; searched: boolean }) {
  if (rows.length === 0) return <Empty title={searched ? t("records.nothing_found") : t("records.none")}><p>{searched ? t("records.nothing_found_help") : t("records.none_help")}</p></Empty>;
  return (
    <>
      <p role="status">{counted("records.found", found)}</p>
      <ul class="rows">
        {rows.map((row) => (
          <li key={row.name}>
            <a class="row-link row-tall" href={pathOf(kind, row.name)}>
              <strong>{row.label ? `${row.name} · ${row.label}` : row.name}</strong>
              <span>{aboutRow(kind, row)}</span>
            </a>
          </li>
        ))}
      </ul>
    </>
  );
}

function aboutRow(kind: Kind, row: KindRow): string {
  const state = (STATES[kind] ?? []).find((one) => one.value === row.state);
  return [
    state ? t(state.word) : row.state,
    row.teeth?.length ? t("records.teeth", { teeth: row.teeth.join(", ") }) : "",
    row.pieces?.length ? row.pieces.join(", ") : "",
    row.wanted ? t("records.wanted", { on: day(row.wanted) }) : "",
    row.expires ? t("records.expires", { on: day(row.expires) }) : "",
    row.at ? momentInFull(row.at) : "",
    row.locked ? t("parts.locked") : "",
  ].filter(Boolean).join(" · ");
}
