import type { Kind } from "../../api/types";
import { changeOf, newOf } from "../../kept/place";
import { kindName } from "../records/trail_words";
import { waitingDrafts, type DraftPlace } from "../../state/drafts";
import { moment, t } from "../../words";
import { screens } from "../../shell/routes";

/** Where a draft is gone on with, and what it is of; null for what is typed in a dialog, which has no place of its own. */
function placeOf({ screen, document }: DraftPlace): { to: string; of: string } | null {
  const known = screens.find(({ path, shown }) => path === screen && shown === "always" && path !== "today");
  if (known) return { to: document ? `/${screen}/${document.split("/").map(encodeURIComponent).join("/")}` : `/${screen}`, of: t(known.word) };
  const of = kindName(screen);
  return of === null ? null : { to: document ? changeOf(screen as Kind, document) : newOf(screen as Kind), of };
}

/** What was typed on this device and is not kept yet, with the way back to it. */
export function WaitingDrafts() {
  const drafts = waitingDrafts().flatMap((one) => {
    const place = placeOf(one);
    return place ? [{ ...one, ...place }] : [];
  });
  if (drafts.length === 0) return null;
  return (
    <section class="section screen-only">
      <h2>{t("today.drafts.title")}</h2>
      <p class="field-help">{t("today.drafts.says")}</p>
      <ul class="rows">
        {drafts.map((one) => (
          <li key={`${one.screen} ${one.document} ${one.version}`}>
            <a class="row-link" href={one.to}>
              <strong>{one.document || t("today.drafts.new")}</strong>
              <span>{[one.of, moment(one.at), one.by ? t("today.drafts.by", { person: one.by }) : ""].filter(Boolean).join(" · ")}</span>
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
