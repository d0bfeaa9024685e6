import type { Kind } from "../../api/types";
import { Names } from "../../kept/values";
import { useChoiceWords } from "../../kept/choice_words";
import { AnswerView, Empty } from "../../parts";
import { pathOf } from "../../shell/routes";
import { useAnswer } from "../../state/use_answer";
import { momentInFull, number, t } from "../../words";
import { afterWords, layerWords, stressWords } from "./after_words";
import { bare, type After, type DeviationEvent, type FiringEvent, type PieceEvent, type PieceHistory, type StepEvent } from "./piece_history";

/** All a piece went through, oldest first, with what it was after each firing. */
export function HistoryView({ piece }: { piece: string }) {
  const answer = useAnswer<PieceHistory>(`/api/pieces/${encodeURIComponent(piece)}/history`);
  return (
    <AnswerView of={answer}>
      {({ history, zone }) =>
        history.length === 0 ? (
          <Empty title={t("records.history.none")} />
        ) : (
          <ol class="history">
            {history.map((event) => (
              <li key={`${event.kind} ${event.name}`} class="history-event">
                <EventView event={event} zone={zone} />
              </li>
            ))}
          </ol>
        )
      }
    </AnswerView>
  );
}

function EventView({ event, zone }: { event: PieceEvent; zone: string }) {
  if (event.kind === "firing") return <FiringView event={event} zone={zone} />;
  return event.kind === "bench step" ? <StepView event={event} zone={zone} /> : <DeviationView event={event} zone={zone} />;
}

function EventHead({ kind, name, what, at, zone, person }: { kind: Kind; name: string; what: string; at: string; zone: string; person: string | null }) {
  return (
    <p class="history-head">
      <strong>{what}</strong> <span class="soft">{person ? t("parts.at_by", { at: momentInFull(at, zone), person }) : momentInFull(at, zone)}</span>{" "}
      <a class="name-link" href={pathOf(kind, name)}>{name}</a>
    </p>
  );
}

function FiringView({ event, zone }: { event: FiringEvent; zone: string }) {
  const stage = useChoiceWords("firing", "stage");
  const outcome = useChoiceWords("firing", "record.result.outcome");
  const state = useChoiceWords("firing", "record.state");
  return (
    <>
      <EventHead kind="firing" name={event.name} what={t("records.history.firing", { stage: stage(event.stage), state: state(event.state) })} at={event.at} zone={zone} person={event.person} />
      <p>
        {t("records.history.in_furnace")} <Names kind="furnace" names={[bare(event.furnace)]} />, {t("records.history.under")} <Names kind="program" names={[bare(event.program)]} />
      </p>
      {event.interruption ? <p>{t("records.history.interrupted", { why: event.interruption })}</p> : null}
      {event.result ? (
        <p>
          {t("records.history.came_out", { outcome: outcome(event.result.outcome) })}
          {event.result.seen ? `: ${event.result.seen}` : ""}
        </p>
      ) : null}
      {event.after ? <AfterView after={event.after} /> : null}
      {event.photos.length > 0 ? <Photos event={event} /> : null}
    </>
  );
}

function AfterView({ after }: { after: After }) {
  const words = afterWords(after);
  const layers = (after.layers ?? []).map((layer) => ({ layer, says: layerWords(layer) })).filter(({ says }) => says !== "");
  const stresses = after.stress ?? [];
  if (words === "" && layers.length === 0) return <p class="soft">{after.how}</p>;
  return (
    <div class="after">
      <p>{t("records.after.title")} {words}</p>
      {layers.length + stresses.length > 0 ? (
        <ul>
          {layers.map(({ layer, says }) => (
            <li key={layer.section + layer.material}>{layer.section} ({layer.material}): {says}</li>
          ))}
          {stresses.map((stress) => (
            <li key={`stress ${stress.section}`}>{stress.section}{stress.material ? ` (${stress.material})` : ""}: {stressWords(stress)}</li>
          ))}
        </ul>
      ) : null}
      {after.rehearsal ? <p class="soft">{t("records.after.computed", { version: number(after.rehearsal) })}</p> : null}
    </div>
  );
}

function Photos({ event }: { event: FiringEvent }) {
  return (
    <div class="photos">
      {event.photos.map((photo) => (
        <a key={photo.hash} href={`/api/photos/${photo.hash}`} target="_blank" rel="noopener">
          <img src={`/api/photos/${photo.hash}`} alt={photo.of ? t("records.history.photo_of", { of: photo.of }) : t("records.history.photo", { firing: event.name })} loading="lazy" />
        </a>
      ))}
    </div>
  );
}

function StepView({ event, zone }: { event: StepEvent; zone: string }) {
  const work = useChoiceWords("bench-step", "work");
  return (
    <>
      <EventHead kind="bench-step" name={event.name} what={work(event.work)} at={event.at} zone={zone} person={event.person} />
      {event.lots.length > 0 ? <p>{t("records.history.with_lots")} <Names kind="lot" names={event.lots} /></p> : null}
      {event.note ? <p>{event.note}</p> : null}
    </>
  );
}

function DeviationView({ event, zone }: { event: DeviationEvent; zone: string }) {
  const decision = useChoiceWords("deviation", "decision");
  return (
    <>
      <EventHead kind="deviation" name={event.name} what={t("records.history.deviation", { decision: decision(event.decision) })} at={event.at} zone={zone} person={event.person} />
      {event.from ? <p>{t("records.deviation.left", { from: event.from })}</p> : null}
      {event.found ? <p>{t("records.deviation.found", { found: event.found })}</p> : null}
      {event.released_at ? <p>{t("records.deviation.released", { at: momentInFull(event.released_at, zone), person: event.released_by ?? "–" })}</p> : null}
    </>
  );
}
