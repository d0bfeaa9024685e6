import type { ComponentChildren } from "preact";
import { useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import { bench } from "../../api/client";
import { Button, Dialog, Field, Wrong } from "../../parts";
import { notify } from "../../shell/notices";
import { draft } from "../../state/drafts";
import { t, type PlainWord } from "../../words";
import { endBody, NO_ANSWERS, OUTCOMES, questionsOf, type EndAnswers, type Outcome, type PieceAnswer, type Question, type Readings } from "./end_answers";
import type { DialogOfFiring } from "./opened";
import { useWork } from "../../state/use_work";

const OUTCOME_WORDS: Record<Outcome, PlainWord> = {
  "as wanted": "today.end.as_wanted",
  "fire again": "today.end.fire_again",
  "make again": "today.end.make_again",
  "not judged": "today.end.not_judged",
};

const READINGS = [
  { key: "highest_display", label: "today.end.highest_display", help: "today.end.highest_display_help" },
  { key: "hold", label: "today.end.hold", help: "today.end.hold_help" },
  { key: "lowest_pressure", label: "today.end.lowest_pressure", help: "today.end.lowest_pressure_help" },
  { key: "duration", label: "today.end.duration", help: "today.end.duration_help" },
] as const satisfies readonly { key: keyof Readings; label: PlainWord; help: PlainWord }[];

interface Step {
  answers: EndAnswers;
  change: (next: EndAnswers) => void;
  next: () => void;
}

/** The result of a firing, one question at a time; the answers so far are a draft until they are kept. */
export function EndDialog({ firing, onClose, onDone }: DialogOfFiring) {
  const kept = useMemo(() => draft<EndAnswers>({ screen: "today", document: firing.name, version: 0 }), [firing.name]);
  const answers = kept.values.value ?? NO_ANSWERS;
  const pieces = firing.pieces.map(({ piece }) => piece);
  const questions = questionsOf(pieces, answers);
  const [place, setPlace] = useState(0);
  const question = questions[Math.min(place, questions.length - 1)];
  const { busy, wrong, run } = useWork(() => {
    kept.end();
    notify(t("today.end.kept", { name: firing.name }));
    onDone();
  });
  const step: Step = { answers, change: (next) => kept.change(next), next: () => setPlace(place + 1) };
  return (
    <Dialog title={t("today.end.title", { name: firing.label || firing.name })} onClose={onClose}>
      <p class="step-of" role="status">
        {t("today.end.step", { step: place + 1, steps: questions.length })}
      </p>
      {question ? <Asked question={question} step={step} pieces={pieces} /> : null}
      {place === 0 ? <p class="caution">{t("today.end.caution")}</p> : null}
      <Wrong sentence={wrong} />
      <div class="actions actions-row">
        {place > 0 ? <Button onPress={() => setPlace(place - 1)}>{t("parts.back")}</Button> : null}
        {question?.of === "summary" ? (
          <Button kind="primary" busy={busy} onPress={() => run(() => bench.end(firing.name, endBody(pieces, answers)))}>
            {t("today.end.keep")}
          </Button>
        ) : null}
      </div>
    </Dialog>
  );
}

function Asked({ question, step, pieces }: { question: Question; step: Step; pieces: readonly string[] }) {
  if (question.of === "how") return <How key={question.piece} piece={question.piece} step={step} />;
  if (question.of === "seen") return <Seen key={question.piece} piece={question.piece} step={step} />;
  if (question.of === "readings") return <Read step={step} />;
  return <Summary answers={step.answers} pieces={pieces} />;
}

/** A name stays on one line: its hyphens do not break. */
function unbroken(name: string): string {
  return name.replaceAll("-", "\u2011");
}

/** Takes the focus when its question comes up: the key that was pressed is gone by then. */
function QuestionHead({ children }: { children: string }) {
  const head = useRef<HTMLHeadingElement>(null);
  useLayoutEffect(() => head.current?.focus(), [children]);
  return (
    <h3 id="question" class="question" tabIndex={-1} ref={head}>
      {children}
    </h3>
  );
}

function withPiece(answers: EndAnswers, piece: string, change: PieceAnswer): EndAnswers {
  return { ...answers, pieces: { ...answers.pieces, [piece]: { ...answers.pieces[piece], ...change } } };
}

function How({ piece, step }: { piece: string; step: Step }) {
  const chosen = step.answers.pieces[piece]?.outcome;
  return (
    <div role="group" aria-labelledby="question">
      <QuestionHead>{t("today.end.how", { piece: unbroken(piece) })}</QuestionHead>
      <div class="answer-keys">
        {OUTCOMES.map((outcome) => (
          <button
            key={outcome}
            type="button"
            class="answer-key"
            aria-pressed={chosen === outcome}
            onClick={() => {
              step.change(withPiece(step.answers, piece, { outcome }));
              step.next();
            }}
          >
            {t(OUTCOME_WORDS[outcome])}
          </button>
        ))}
      </div>
    </div>
  );
}

function Seen({ piece, step }: { piece: string; step: Step }) {
  const { seen = "", looked_like = "" } = step.answers.pieces[piece] ?? {};
  return (
    <NextForm step={step}>
      <QuestionHead>{t("today.end.seen", { piece: unbroken(piece) })}</QuestionHead>
      <Field label={t("today.end.seen_label")} help={t("today.end.seen_help")} value={seen} lines={2} onInput={(value) => step.change(withPiece(step.answers, piece, { seen: value }))} />
      <Field
        label={t("today.end.looked_like")}
        help={t("today.end.looked_like_help")}
        value={looked_like}
        onInput={(value) => step.change(withPiece(step.answers, piece, { looked_like: value }))}
      />
    </NextForm>
  );
}

function Read({ step }: { step: Step }) {
  return (
    <NextForm step={step}>
      <QuestionHead>{t("today.end.readings")}</QuestionHead>
      <p class="field-help">{t("today.end.readings_help")}</p>
      <div class="fields-row">
        {READINGS.map(({ key, label, help }) => (
          <Field
            key={key}
            label={t(label)}
            help={t(help)}
            value={step.answers.readings[key] ?? ""}
            onInput={(value) => step.change({ ...step.answers, readings: { ...step.answers.readings, [key]: value } })}
          />
        ))}
      </div>
    </NextForm>
  );
}

function NextForm({ step, children }: { step: Step; children: ComponentChildren }) {
  const next = (event: Event) => {
    event.preventDefault();
    step.next();
  };
  return (
    <form class="form" onSubmit={next}>
      {children}
      <Button kind="primary" submit>
        {t("parts.next")}
      </Button>
    </form>
  );
}

function Summary({ answers, pieces }: { answers: EndAnswers; pieces: readonly string[] }) {
  const read = READINGS.filter(({ key }) => answers.readings[key]?.trim());
  return (
    <>
      <QuestionHead>{t("today.end.summary")}</QuestionHead>
      <dl class="read-back">
        {pieces.map((piece) => {
          const { outcome = "not judged", seen, looked_like } = answers.pieces[piece] ?? {};
          return (
            <div key={piece}>
              <dt>{piece}</dt>
              <dd>{[t(OUTCOME_WORDS[outcome]), seen, looked_like].filter((words) => words?.trim()).join(" · ")}</dd>
            </div>
          );
        })}
        {read.map(({ key, label }) => (
          <div key={key}>
            <dt>{t(label)}</dt>
            <dd>{answers.readings[key]}</dd>
          </div>
        ))}
      </dl>
      {read.length === 0 ? <p class="field-help">{t("today.end.nothing_read")}</p> : null}
    </>
  );
}
