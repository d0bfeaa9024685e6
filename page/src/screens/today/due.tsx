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
          {due.map((one) => (
            <li key={`${one.kind} ${one.name} ${one.what} ${one.on}`}>
              <a class="row-link due-row" href={placeOf(one)}>
                <span class="due-when">
                  {one.overdue ? <OverdueMark words={t("today.cases.overdue")} /> : null} {day(one.on)}
                </span>
                <span class="due-what">
                  <strong>{one.name}</strong> {one.what}
                  {one.label ? <small>{one.label}</small> : null}
                </span>
              </a>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
