import { Button } from "../../../parts";
import { t } from "../../../words";
import type { OfDisplay } from "./answer";
import { BigNumber } from "./big_number";
import { difference, differenceUnit } from "./shown";
import type { CheckNow } from "./use_check";

/** What the error is judged by and who says so; where the lab allows another, the check is judged by that. */
export function Allowed({ now, check }: { now: CheckNow; check: OfDisplay }) {
  const limit = now.typed("limit");
  const judge = (event: Event) => {
    event.preventDefault();
    if (limit.trim() !== "") now.say({ limit });
  };
  return (
    <details class="fold">
      <summary>{check.limit_from === "lab" ? t("check.allowed.lab", { limit: difference(check.limit_K) }) : t("check.allowed.assumed", { limit: difference(check.limit_K) })}</summary>
      <form class="check-form" onSubmit={judge}>
        <BigNumber label={t("check.allowed.other")} help={t("check.allowed.help")} value={limit} units={[differenceUnit()]} unitsLabel={t("check.unit")} busy={now.busy} onInput={(text) => now.type("limit", text)} />
        <Button submit busy={now.busy} disabled={limit.trim() === ""}>{t("check.allowed.judge")}</Button>
      </form>
    </details>
  );
}
