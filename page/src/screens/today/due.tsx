import type { Due, Kind } from "../../api/client";
import { Empty } from "../../parts";
import { pathOf } from "../../shell/routes";
import { counted, day, t } from "../../words";

/** A mark of its own shape with its words: what is late is seen and read, never only coloured. */
export function OverdueMark({ words }: { words: string }) {
  return (
    <strong class="overdue">
      <svg class="level-mark" viewBox="0 0 16 16" aria-hidden="true">
        <circle cx="8" cy="8" r="6.5" class="level-stroke" />
        <path d="M8 4v4.5l3 1.8" class="level-stroke" />
      </svg>
      {words}
    </strong>
  );
}

/** What falls due of a furnace is done and changed on a page of its own. */
function placeOf({ kind, name }: Due): string {
  const path = pathOf(kind.replaceAll(" ", "-") as Kind, name);
  return kind === "furnace" ? `${path}/due` : path;
}

interface DueDay {
  on: string;
  overdue: boolean;
  what: Due[];
}

/** They come in order of day: a day is said once, however much falls due on it. */
function byDay(due: readonly Due[]): DueDay[] {
  const days: DueDay[] = [];
  for (const one of due) {
    const last = days.at(-1);
    if (last?.on === one.on && last.overdue === one.overdue) last.what.push(one);
    else days.push({ on: one.on, overdue: one.overdue, what: [one] });
  }
  return days;
}

export function DueList({ due, overdue }: { due: readonly Due[]; overdue: number }) {
  return (
    <section class="section">
      <h2>
        {t("today.due.title")} {overdue > 0 ? <small>{counted("today.due.overdue", overdue)}</small> : null}
      </h2>
      {due.length === 0 ? (
        <Empty title={t("today.due.nothing")} />
      ) : (
        <ul class="rows">
          {byDay(due).map((one) => (
            <li key={`${one.on} ${one.overdue}`} class="due-day">
              <h3 class="due-when">
                {one.overdue ? <OverdueMark words={t("today.cases.overdue")} /> : null} {day(one.on)}
              </h3>
              <ul class="due-things">
                {one.what.map((each) => (
                  <li key={`${each.kind} ${each.name} ${each.what}`}>
                    <a class="row-link due-row" href={placeOf(each)}>
                      <span class="due-what">
                        <strong>{each.name}</strong> {each.what}
                        {each.label ? <small>{each.label}</small> : null}
                      </span>
                    </a>
                  </li>
                ))}
              </ul>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
