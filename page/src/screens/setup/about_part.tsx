import { paths, type StoreStatus } from "../../api/client";
import { Disclaimer } from "../../parts";
import { session } from "../../state/session";
import { useAnswer } from "../../state/use_answer";
import { t } from "../../words";

const CAUTIONS = ["setup.about.hot", "setup.about.fibre", "setup.about.fumes", "setup.about.silver", "setup.about.eyes"] as const;

export function AboutPart() {
  const store = useAnswer<StoreStatus>(paths.store());
  return (
    <>
      <h2>{t("setup.about.title")}</h2>
      <p>
        <strong>{t("setup.about.version", { version: session.value?.version ?? "" })}</strong>
      </p>
      <Disclaimer />
      <p>{t("setup.about.no_brand")}</p>
      <p>{t("setup.about.estimates")}</p>
      {store.answer ? (
        <section class="section">
          <h3>{t("setup.copies.head")}</h3>
          <p class="hash">{store.answer.head}</p>
          <p class="field-help">{t("setup.copies.head_help")}</p>
        </section>
      ) : null}
      <section class="section">
        <h3>{t("setup.about.cautions")}</h3>
        <ul>
          {CAUTIONS.map((word) => (
            <li key={word}>{t(word)}</li>
          ))}
        </ul>
      </section>
      <p>
        <a class="tall-link" href="/api/openapi.json">
          {t("setup.about.api")}
        </a>
      </p>
    </>
  );
}
