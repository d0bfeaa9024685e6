// Which firing: one that is planned or under way, the next step of a case, or one found by its name.
import { useState } from "preact/hooks";
import { paths, type CaseToday, type DocumentList, type FiringToday, type Today } from "../../api/client";
import { AnswerView, ButtonLink, Empty, Field, Heading } from "../../parts";
import { useAnswer } from "../../state/use_answer";
import { useChoiceWords } from "../../state/use_choice_words";
import { t, type PlainWord } from "../../words";
import { pathOf } from "../../shell/routes";
import { pathOfNew } from "./paths";
import type { ShelfRow } from "./shelves";

export function ChooseFiring() {
  const today = useAnswer<Today>(paths.today());
  const [word, setWord] = useState("");
  return (
    <>
      <Heading aside={<ButtonLink to="/firing/new">{t("firing.choose.new")}</ButtonLink>}>{t("firing.choose.title")}</Heading>
      <p class="lead">{t("firing.choose.lead")}</p>
      <AnswerView of={today}>
        {(answer) => (
          <div class="choose">
            <NextSteps cases={answer.cases} />
            <Firings title={t("firing.choose.planned")} firings={answer.firings} />
          </div>
        )}
      </AnswerView>
      <section class="choose-find">
        <h2>{t("firing.choose.find")}</h2>
        <Field label={t("firing.choose.word")} value={word} onInput={setWord} kind="search" help={t("firing.choose.word_help")} />
        <Found word={word} />
      </section>
    </>
  );
}

interface Step {
  to: string;
  pieces: string;
  what: string;
}

/** What is next for the pieces of a case: firings that are planned for them, and one to be put together of those that have none. */
export function stepsOfCase(one: CaseToday, words: (key: string, value: string) => string): Step[] {
  const planned = one.pieces.flatMap(({ piece, label, next }) => (next ? [{ to: pathOf("firing", next.firing), pieces: label || piece, what: [words("stage", next.stage), stateWords(next.state)].filter(Boolean).join(" · ") }] : []));
  const free = one.pieces.filter(({ kept, next }) => kept && !next);
  const together = { to: pathOfNew(free.map(({ piece }) => piece)), pieces: free.map(({ piece, label }) => label || piece).join(", "), what: one.next_step ?? t("firing.choose.no_step") };
  return free.length ? [...planned, together] : planned;
}

function NextSteps({ cases }: { cases: readonly CaseToday[] }) {
  const words = useChoiceWords("firing");
  const open = cases.filter((one) => stepsOfCase(one, words).length > 0);
  return (
    <section>
      <h2>{t("firing.choose.next_steps")}</h2>
      {open.length === 0 ? <Empty title={t("firing.choose.no_cases")}>{t("firing.choose.no_cases_help")}</Empty> : null}
      <ul class="choose-list">
        {open.flatMap((one) =>
          stepsOfCase(one, words).map((step) => (
            <li key={step.to}>
              <a class="choose-key" href={step.to}>
                <strong>{step.pieces}</strong>
                <span>{step.what}</span>
                <small>{[one.label, one.name].filter(Boolean).join(" · ")}</small>
              </a>
            </li>
          )),
        )}
      </ul>
    </section>
  );
}

const STATES: Record<FiringToday["state"], PlainWord> = {
  planned: "firing.state.planned",
  started: "firing.state.started",
  ended: "firing.state.ended",
  interrupted: "firing.state.interrupted",
  "called off": "firing.state.called_off",
};

export function stateWords(state: string): string {
  return state in STATES ? t(STATES[state as FiringToday["state"]]) : state;
}

function Firings({ title, firings }: { title: string; firings: readonly FiringToday[] }) {
  const words = useChoiceWords("firing");
  return (
    <section>
      <h2>{title}</h2>
      {firings.length === 0 ? <Empty title={t("firing.choose.no_firings")}>{t("firing.choose.no_firings_help")}</Empty> : null}
      <ul class="choose-list">
        {firings.map((firing) => (
          <li key={firing.name}>
            <a class="choose-key" href={pathOf("firing", firing.name)}>
              <strong>{firing.pieces.map(({ piece }) => piece).join(", ") || firing.label || firing.name}</strong>
              <span>{[words("stage", firing.stage), stateWords(firing.state)].filter(Boolean).join(" · ")}</span>
              <small>{[firing.label, firing.furnace].filter(Boolean).join(" · ")}</small>
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Found({ word }: { word: string }) {
  const words = useChoiceWords("firing");
  const found = useAnswer<DocumentList<ShelfRow>>(paths.documents("firing", { word: word.trim() }));
  return (
    <AnswerView of={found}>
      {({ rows }) => (
        <ul class="choose-list" aria-live="polite">
          {rows.length === 0 ? <li>{t(word.trim() === "" ? "firing.choose.nothing_kept" : "firing.choose.nothing_found")}</li> : null}
          {rows.slice(0, 12).map((row) => (
            <li key={row.name}>
              <a class="choose-key" href={pathOf("firing", row.name)}>
                <strong>{row.pieces?.join(", ") || row.label || row.name}</strong>
                <span>{[row.stage ? words("stage", row.stage) : "", stateWords(row.state)].filter(Boolean).join(" · ")}</span>
                <small>{[row.label, row.name].filter(Boolean).join(" · ")}</small>
              </a>
            </li>
          ))}
        </ul>
      )}
    </AnswerView>
  );
}
