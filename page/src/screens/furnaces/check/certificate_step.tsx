import { useState } from "preact/hooks";
import { Button, Field } from "../../../parts";
import { t } from "../../../words";
import { BigNumber } from "./big_number";
import { differenceUnit } from "./shown";
import type { CheckNow } from "./use_check";

/** How true a thermocouple is: by its certificate, or by the class its wire was bought in. */
export function CertificateStep({ now }: { now: CheckNow }) {
  const [certificate, setCertificate] = useState(now.typed("probe.correction") !== "");
  if (certificate) return <Certificate now={now} />;
  return (
    <div class="check-keys" role="group" aria-labelledby="question" aria-describedby="why">
      <button type="button" class="check-key" onClick={() => setCertificate(true)}>{t("check.probe.has_certificate")}</button>
      {["1", "2"].map((number) => (
        <button key={number} type="button" class="check-key" disabled={now.busy} onClick={() => now.say({ "probe.tolerance_class": number })}>
          {t("check.probe.class", { number })}
        </button>
      ))}
    </div>
  );
}

function Certificate({ now }: { now: CheckNow }) {
  const correction = now.typed("probe.correction");
  const say = (event: Event) => {
    event.preventDefault();
    const more = ["probe.correction_u", "probe.certified"].flatMap((key) => (now.typed(key) ? [[key, now.typed(key)] as const] : []));
    if (correction !== "") now.say({ "probe.correction": correction, ...Object.fromEntries(more) });
  };
  const unit = [differenceUnit()];
  return (
    <form class="check-form" onSubmit={say}>
      <BigNumber label={t("check.probe.correction")} help={t("check.probe.correction_help")} value={correction} units={unit} unitsLabel={t("check.unit")} mistake={now.wrong ?? undefined} busy={now.busy} onInput={(text) => now.type("probe.correction", text)} />
      <BigNumber label={t("check.probe.correction_u")} help={t("parts.optional")} value={now.typed("probe.correction_u")} units={unit} unitsLabel={t("check.unit")} busy={now.busy} onInput={(text) => now.type("probe.correction_u", text)} />
      <Field label={t("check.probe.certified")} help={t("parts.optional")} kind="date" value={now.typed("probe.certified")} onInput={(text) => now.type("probe.certified", text)} />
      <Button kind="primary" submit busy={now.busy} disabled={correction.trim() === ""}>{t("parts.next")}</Button>
    </form>
  );
}
