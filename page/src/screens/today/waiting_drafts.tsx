import { waitingDrafts } from "../../state/drafts";
import { moment, t } from "../../words";
import { screens } from "../../shell/routes";

/** What was typed on this device and is not kept yet, with the way back to it. */
export function WaitingDrafts() {
  const drafts = waitingDrafts().filter((one) => screens.some(({ path, shown }) => path === one.screen && shown === "always" && path !== "today"));
  if (drafts.length === 0) return null;
  return (
    <section class="section screen-only">
      <h2>{t("today.drafts.title")}</h2>
      <p class="field-help">{t("today.drafts.says")}</p>
      <ul class="rows">
        {drafts.map((one) => (
          <li key={`${one.screen} ${one.document} ${one.version}`}>
            <a class="row-link" href={one.document ? `/${one.screen}/${one.document.split("/").map(encodeURIComponent).join("/")}` : `/${one.screen}`}>
              <strong>{one.document || t("today.drafts.new")}</strong>
              <span>{[t(screens.find(({ path }) => path === one.screen)?.word ?? "today.drafts.new"), moment(one.at)].join(" · ")}</span>
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
