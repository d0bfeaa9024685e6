import { useState } from "preact/hooks";
import { Pages } from "../../kept/pages";
import { AnswerView, Button, Empty, Heading, Table, type Column } from "../../parts";
import { useAnswer } from "../../state/use_answer";
import { momentInFull, number, t } from "../../words";
import { Shelves } from "./shelves";
import { actionWords, kindWords } from "./trail_words";

interface Entry {
  sequence: number;
  at: string;
  zone: string;
  person: string;
  action: string;
  reason: string;
  kind: string;
  name: string;
  version: number;
}

interface TrailAnswer {
  count: number;
  page: number;
  pages: number;
  entries: Entry[];
}

/** Names that are a hash tell nobody anything beyond their beginning. */
const LONGEST_NAME = 60;

function whatOf({ action, kind, name, version }: Entry): string {
  // The store is the one that is looked at, and its version is that of its format.
  if (kind === "store") return actionWords(action);
  const shown = name.length > LONGEST_NAME ? `${name.slice(0, 8)} …` : name;
  return [`${actionWords(action)}: ${kindWords(kind)} ${shown}`, version > 0 ? t("parts.version", { version }) : ""].filter(Boolean).join(", ");
}

const COLUMNS = (): Column<Entry>[] => [
  { key: "sequence", head: t("records.trail.number"), number: true, cell: (row) => number(row.sequence) },
  { key: "at", head: t("records.trail.at"), cell: (row) => momentInFull(row.at, row.zone) },
  { key: "person", head: t("parts.person"), cell: (row) => row.person },
  { key: "what", head: t("records.trail.what"), names: true, cell: (row) => whatOf(row) },
  { key: "reason", head: t("parts.reason"), free: true, cell: (row) => row.reason || "–" },
];

/** Who did what, when and why: every change there ever was, newest first. */
export function Trail() {
  const [page, setPage] = useState(1);
  const answer = useAnswer<TrailAnswer>(`/api/trail?newest_first=true&page=${page}`);
  return (
    <>
      <Heading>{t("records.trail.title")}</Heading>
      <Shelves at="trail" />
      <p>{t("records.trail.lead")}</p>
      <AnswerView of={answer}>
        {(trail) =>
          trail.count === 0 ? <Empty title={t("records.none")} /> : (
            <>
              <Table caption={t("records.trail.title")} quiet columns={COLUMNS()} rows={trail.entries} keyOf={(row) => String(row.sequence)} />
              <Pages page={trail.page} pages={trail.pages} count={trail.count} onGo={setPage} />
              <div class="actions screen-only">
                <Button kind="primary" onPress={() => print()}>{t("parts.print")}</Button>
              </div>
            </>
          )
        }
      </AnswerView>
    </>
  );
}
