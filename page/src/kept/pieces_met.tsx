import { useState } from "preact/hooks";
import { AnswerView, Empty, Table, type Column } from "../parts";
import { pathOf } from "../shell/routes";
import { useAnswer } from "../state/use_answer";
import { momentInFull, number, t, counted } from "../words";
import { Pages } from "./pages";

export interface PieceMet {
  piece: string;
  case: string | null;
  first: string;
  last: string;
  times: number;
}

export interface PiecesMet {
  format: 1;
  kept: boolean;
  zone: string;
  count: number;
  page: number;
  pages: number;
  pieces: PieceMet[];
}

/** Which pieces met something: each once, with first and last time; page by page where there are many. */
export function PiecesMetView({ question, caption, empty, about }: { question: string; caption: string; empty: string; about?: (answer: PiecesMet) => preact.ComponentChildren }) {
  const [page, setPage] = useState(1);
  const paged = page === 1 ? question : `${question}${question.includes("?") ? "&" : "?"}page=${page}`;
  const answer = useAnswer<PiecesMet>(paged);
  return (
    <AnswerView of={answer}>
      {(met) => (
        <>
          {about?.(met)}
          {met.count === 0 ? (
            <Empty title={empty} />
          ) : (
            <>
              <p>{counted("kept.pieces_count", met.count)}</p>
              <Table caption={caption} quiet columns={columnsOf(met.zone)} rows={met.pieces} keyOf={(row) => row.piece} />
              <Pages page={met.page} pages={met.pages} count={met.count} onGo={setPage} />
            </>
          )}
        </>
      )}
    </AnswerView>
  );
}

function columnsOf(zone: string): Column<PieceMet>[] {
  return [
    { key: "piece", head: t("kept.piece"), names: true, cell: (row) => <a class="name-link" href={pathOf("piece", row.piece)}>{row.piece}</a> },
    { key: "case", head: t("kept.case"), cell: (row) => (row.case ? <a class="name-link" href={pathOf("case", row.case)}>{row.case}</a> : "–") },
    { key: "first", head: t("kept.first_time"), cell: (row) => momentInFull(row.first, zone) },
    { key: "last", head: t("kept.last_time"), cell: (row) => momentInFull(row.last, zone) },
    { key: "times", head: t("kept.times"), number: true, cell: (row) => number(row.times) },
  ];
}
