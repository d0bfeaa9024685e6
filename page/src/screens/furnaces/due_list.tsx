import type { Due, Kind } from "../../api/types";
import { pathOf } from "../../shell/routes";
import { day, t } from "../../words";

/** What falls due, the overdue said so in words. */
export function DueList({ due }: { due: readonly Due[] }) {
  return (
    <ul class="due">
      {due.map((one) => (
        <li key={`${one.kind} ${one.name} ${one.what}`}>
          <strong>{one.overdue ? t("kept.overdue_since", { on: day(one.on) }) : day(one.on)}</strong>{" "}
          <a class="name-link" href={pathOf(one.kind.replace(" ", "-") as Kind, one.name)}>{one.label || one.name}</a> {one.what}
        </li>
      ))}
    </ul>
  );
}
