import { t } from "../words/catalogue";

/** The words that stand on the start page and on every printed sheet. */
export function Disclaimer() {
  return <p class="disclaimer">{t("parts.disclaimer")}</p>;
}
