// What matters of the furnace before a firing: how true its display is and when that was checked, and how far it can go.
import { t } from "../../words";
import { namesOf } from "./bench";
import { useDesk } from "./desk_context";

export function FurnaceFacts() {
  const desk = useDesk();
  const { furnace } = namesOf(desk.bench.value);
  const values = desk.values(`furnace ${furnace}`);
  if (!values["maximum"]) return null;
  const error = values["display_error.error"];
  const uncertainty = values["display_error.standard_uncertainty"] ?? "";
  const checked = values["display_error.checked"] ?? "";
  return (
    <ul class="facts">
      <li>{error === undefined ? t("firing.load.display_unchecked") : t("firing.load.display_error", { error, uncertainty })}</li>
      {checked ? <li>{t("firing.load.display_checked", { checked })}</li> : null}
      {values["correction_keyed"] ? <li>{t("firing.load.correction", { correction: values["correction_keyed"] })}</li> : null}
      <li>{t("firing.load.maximum", { maximum: values["maximum"] })}</li>
    </ul>
  );
}
