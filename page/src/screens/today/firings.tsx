import type { ComponentChildren } from "preact";
import type { FiringToday } from "../../api/client";
import { Button, ButtonLink, Empty } from "../../parts";
import { pathOf } from "../../shell/routes";
import { may } from "../../state/session";
import { useChoiceWords } from "../../state/use_choice_words";
import { clock, moment, t } from "../../words";
import type { Opened } from "./opened";

type Says = (key: string, value: string) => string;

interface Firings {
  firings: readonly FiringToday[];
  zone: string;
  open: (work: Opened) => void;
}

function FiringCard({ firing, when, open, says, children }: { firing: FiringToday; when: string | null; open?: string | null; says: Says; children: ComponentChildren }) {
  return (
    <li class="sheet card">
      <div class="card-head">
        <h3>
          <a href={pathOf("firing", firing.name)}>{firing.label || firing.name}</a>
        </h3>
        {when ? <p class="card-when">{when}</p> : null}
        {open ? <p class="card-opens">{open}</p> : null}
      </div>
      <p class="card-facts">
        {[t("today.now.in_furnace", { furnace: firing.furnace }), t("today.planned.program", { program: firing.program }), says("stage", firing.stage)].join(" · ")}
      </p>
      <ul class="card-pieces">
        {firing.pieces.map(({ piece, place }) => (
          <li key={piece}>
            <a href={pathOf("piece", piece)}>{piece}</a> <span>{says("place", place)}</span>
          </li>
        ))}
      </ul>
      <div class="actions actions-row">{children}</div>
    </li>
  );
}

function dayOf(at: string, zone: string): string {
  return new Intl.DateTimeFormat("en-CA", { timeZone: zone, year: "numeric", month: "2-digit", day: "2-digit" }).format(new Date(at));
}

function since({ started, started_by, state }: FiringToday, zone: string, today: string): string | null {
  if (!started) return null;
  const time = dayOf(started, zone) === today ? clock(started, zone) : moment(started, zone);
  const words = started_by ? t("today.now.since_by", { time, person: started_by }) : t("today.now.since", { time });
  return state === "interrupted" ? `${t("today.now.interrupted")} · ${words}` : words;
}

/** "expected open between 14:32 and 14:38"; with the day where that is another one. */
function opens({ open }: FiringToday, zone: string, today: string): string | null {
  if (!open) return null;
  const told = (at: string) => (dayOf(at, zone) === today ? clock(at, zone) : moment(at, zone));
  return t("today.now.open_between", { earliest: told(open.earliest), latest: told(open.latest) });
}

/** Firings that were started and have no result yet. */
export function InFurnace({ firings, zone, today, open }: Firings & { today: string }) {
  const says = useChoiceWords("firing");
  return (
    <section class="section">
      <h2>{t("today.now.title")}</h2>
      <ul class="board-cards">
        {firings.map((firing, index) => (
          <FiringCard key={firing.name} firing={firing} says={says} when={since(firing, zone, today)} open={opens(firing, zone, today)}>
            {firing.state === "interrupted" ? (
              <p class="field-help">
                {firing.interruption ? `${firing.interruption}. ` : ""}
                {t("today.now.interrupted_help")}
              </p>
            ) : null}
            {may("fire") ? (
              <>
                <Button kind={index === 0 ? "primary" : "plain"} onPress={() => open({ work: "end", firing })}>
                  {t("today.now.end")}
                </Button>
                {firing.state === "started" ? <Button onPress={() => open({ work: "interrupt", firing })}>{t("today.now.interrupt")}</Button> : null}
              </>
            ) : null}
            <ButtonLink to={pathOf("firing", firing.name)} kind="quiet">
              {t("today.now.open")}
            </ButtonLink>
          </FiringCard>
        ))}
      </ul>
    </section>
  );
}

/** Firings that are planned; the first of them carries the screen's main action where nothing is in a furnace. */
export function Planned({ firings, zone, open, leads }: Firings & { leads: boolean }) {
  const says = useChoiceWords("firing");
  return (
    <section class="section">
      <h2>{t("today.planned.title")}</h2>
      {firings.length === 0 ? (
        <Empty title={t("today.planned.nothing")}>
          <ButtonLink to="/firing" kind={leads ? "primary" : "plain"}>
            {t("today.plan")}
          </ButtonLink>
        </Empty>
      ) : (
        <ul class="board-cards">
          {firings.map((firing, index) => (
            <FiringCard key={firing.name} firing={firing} says={says} when={firing.planned_for ? t("today.planned.for_day", { at: moment(firing.planned_for, zone) }) : null}>
              <ButtonLink to={pathOf("firing", firing.name)} kind={leads && index === 0 ? "primary" : "plain"}>
                {t("today.planned.rehearse")}
              </ButtonLink>
              {may("fire") ? (
                <>
                  <Button onPress={() => open({ work: "start", firing })}>{t("today.planned.start")}</Button>
                  <Button kind="quiet" onPress={() => open({ work: "call off", firing })}>
                    {t("today.planned.call_off")}
                  </Button>
                </>
              ) : null}
            </FiringCard>
          ))}
        </ul>
      )}
    </section>
  );
}
