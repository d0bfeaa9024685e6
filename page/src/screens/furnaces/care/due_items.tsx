import type { ComponentChildren } from "preact";
import { asTold, day, t } from "../../../words";
import type { DueItem } from "./answer";
import { intervalWords, whoWords, workWords } from "./words_of";

const SOON_DAYS = 30;

/** What is overdue or falls due within a month. */
export function soon(items: readonly DueItem[], today: string): DueItem[] {
  const until = new Date(Date.parse(`${today}T00:00:00Z`) + SOON_DAYS * 86_400_000).toISOString().slice(0, 10);
  return items.filter((item) => item.on <= until);
}

/** Each work with its day; the overdue said so in words. */
export function DueLines({ items }: { items: readonly DueItem[] }) {
  return (
    <ul class="due">
      {items.map((item) => (
        <li key={item.work}>
          <strong>{whenWords(item)}</strong> {workWords(item.work)}
        </li>
      ))}
    </ul>
  );
}

function whenWords({ on, overdue }: DueItem): string {
  return overdue ? t("kept.overdue_since", { on: day(on) }) : day(on);
}

/** One work as a sheet: its day, why, how often and by whose word, and what can be done about it. */
export function DueSheet({ item, children }: { item: DueItem; children: ComponentChildren }) {
  const how = intervalWords(item);
  return (
    <li class="sheet care-due">
      <h2>{workWords(item.work)}</h2>
      <p class="care-when">{item.overdue ? <strong class="overdue">{whenWords(item)}</strong> : whenWords(item)}</p>
      <p>{asTold(item.reason.sentence)}</p>
      <p class="soft">{how ? t("care.due_how", { how, who: whoWords(item) }) : whoWords(item)}</p>
      <div class="actions actions-row screen-only">{children}</div>
    </li>
  );
}
