import { useState } from "preact/hooks";
import { paths, type Due, type DocumentList, type Kind } from "../../api/client";
import { Pages } from "../../kept/pages";
import { PiecesMetView } from "../../kept/pieces_met";
import { AnswerView, BigChoice, Button, Choice, Empty, Failed, Field, Heading, Table, type Option } from "../../parts";
import { ask, asked } from "../../shell/navigation";
import { pathOf } from "../../shell/routes";
import { session } from "../../state/session";
import { useAnswer } from "../../state/use_answer";
import { day, isDay, momentInFull, t, type PlainWord } from "../../words";
import { Shelves } from "./shelves";

type Question = "lot" | "furnace" | "check" | "program" | "due";

const QUESTIONS: readonly { value: Question; word: PlainWord; of: Kind | null }[] = [
  { value: "lot", word: "records.questions.lot", of: "lot" },
  { value: "furnace", word: "records.questions.furnace", of: "furnace" },
  { value: "check", word: "records.questions.check", of: "furnace" },
  { value: "program", word: "records.questions.program", of: "program" },
  { value: "due", word: "records.questions.due", of: null },
];

interface Asking {
  question: Question;
  of: string;
  from: string;
  to: string;
}

/** What an inspector asks: which pieces met something, and what falls due; as a list that prints. */
export function Questions() {
  const given = (key: string) => asked.value.get(key) ?? "";
  const now: Asking = { question: (given("question") || "lot") as Question, of: given("of"), from: given("from"), to: given("to") };
  const change = (part: Partial<Asking>) => ask({ ...now, ...part });
  const chosen = QUESTIONS.find((each) => each.value === now.question);
  // Half a day is still being typed: nothing is asked with it.
  const whole: Asking = { ...now, from: isDay(now.from) ? now.from : "", to: isDay(now.to) ? now.to : "" };
  return (
    <>
      <Heading>{t("records.questions.title")}</Heading>
      <Shelves at="questions" />
      <form class="finder screen-only" aria-label={t("records.questions.title")} onSubmit={(event) => event.preventDefault()}>
        <div class="finder-whole">
          <BigChoice label={t("records.questions.which")} options={QUESTIONS.map(({ value, word }) => ({ value, label: t(word) }))} value={now.question} onChoose={(value) => change({ question: value as Question, of: "" })} />
        </div>
        {chosen?.of ? <Of kind={chosen.of} value={now.of} onChoose={(of) => change({ of })} /> : null}
        {now.question === "furnace" ? (
          <>
            <Field kind="date" label={t("records.questions.from")} value={now.from} onInput={(from) => change({ from })} />
            <Field kind="date" label={t("records.questions.to")} value={now.to} onInput={(to) => change({ to })} />
          </>
        ) : null}
        {now.question === "due" ? <Field kind="date" label={t("records.questions.until")} value={now.to} onInput={(to) => change({ to })} /> : null}
      </form>
      <Answered now={whole} words={chosen ? t(chosen.word) : ""} needsOne={chosen?.of !== null} />
    </>
  );
}

function Of({ kind, value, onChoose }: { kind: Kind; value: string; onChoose: (name: string) => void }) {
  const list = useAnswer<DocumentList>(paths.documents(kind));
  const options: Option[] = (list.answer?.rows ?? []).map((row) => ({ value: row.name, label: row.label ? `${row.name} · ${row.label}` : row.name }));
  if (list.error) return <Failed error={list.error} again={list.again} />;
  const word: PlainWord = kind === "lot" ? "records.questions.of_lot" : kind === "program" ? "records.questions.of_program" : "records.questions.of_furnace";
  return <Choice label={t(word)} options={options} value={value} onChoose={onChoose} required />;
}

function pathFor({ question, of, from, to }: Asking): string {
  const name = encodeURIComponent(of);
  const between = new URLSearchParams({ ...(from ? { from } : {}), ...(to ? { to } : {}) }).toString();
  if (question === "lot") return `/api/lots/${name}/pieces`;
  if (question === "program") return `/api/programs/${name}/pieces`;
  return question === "check" ? `/api/furnaces/${name}/since-good-check` : `/api/furnaces/${name}/pieces${between ? `?${between}` : ""}`;
}

function Answered({ now, words, needsOne }: { now: Asking; words: string; needsOne: boolean }) {
  if (needsOne && now.of === "") return <Empty title={t("records.questions.choose")} />;
  const caption = [words, now.of, now.from ? t("records.questions.from_day", { on: day(now.from) }) : "", now.to ? t("records.questions.to_day", { on: day(now.to) }) : ""].filter(Boolean).join(" · ");
  return (
    <section aria-labelledby="answer">
      <h2 id="answer">{caption}</h2>
      <p class="soft">{t("records.questions.asked", { at: momentInFull(new Date().toISOString()), person: session.value?.person ?? t("shell.person.nobody") })}</p>
      {now.question === "due" ? <DueTable until={now.to} /> : <PiecesMetView key={pathFor(now)} question={pathFor(now)} caption={words} empty={t("records.questions.no_pieces")} />}
      <div class="actions screen-only">
        <Button kind="primary" onPress={() => print()}>{t("parts.print")}</Button>
      </div>
    </section>
  );
}

interface DueAnswer {
  count: number;
  page: number;
  pages: number;
  due: Due[];
}

function DueTable({ until }: { until: string }) {
  const [page, setPage] = useState(1);
  const answer = useAnswer<DueAnswer>(paths.due({ until, ...(page > 1 ? { page } : {}) }));
  return (
    <AnswerView of={answer}>
      {(due) =>
        due.count === 0 ? <Empty title={t("records.questions.nothing_due")} /> : (
          <>
            <Table
              caption={t("records.questions.due")}
              quiet
              columns={[
                { key: "on", head: t("records.questions.on"), cell: (row) => (row.overdue ? t("kept.overdue_since", { on: day(row.on) }) : day(row.on)) },
                { key: "what", head: t("records.questions.what"), names: true, free: true, cell: (row) => <><a class="name-link" href={pathOf(row.kind.replace(" ", "-") as Kind, row.name)}>{row.label || row.name}</a> {row.what}</> },
                { key: "name", head: t("kept.name"), cell: (row) => row.name },
              ]}
              rows={due.due}
              keyOf={(row) => `${row.kind} ${row.name} ${row.what}`}
            />
            <Pages page={due.page} pages={due.pages} count={due.count} onGo={setPage} />
          </>
        )
      }
    </AnswerView>
  );
}
