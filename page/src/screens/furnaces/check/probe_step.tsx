import { useState } from "preact/hooks";
import { Button } from "../../../parts";
import { t } from "../../../words";
import type { CheckQuestion, ProbeCheck, ProbeRead } from "./answer";
import { BigNumber } from "./big_number";
import { difference, signedDifference, temperature, temperatureUnit } from "./shown";
import { StepHead } from "./step_head";
import { TakeOut } from "./take_out";
import type { CheckNow } from "./use_check";

/** Most probes are read in one way from first to last: the next comparison begins as the last was told. */
let lastByVoltage = false;

const KEYS = ["display", "probe", "emf", "cold_junction"] as const;

/** Display and thermocouple, read together; then at another temperature, or that was all. */
export function ProbeStep({ now, check, question }: { now: CheckNow; check: ProbeCheck; question: CheckQuestion | null }) {
  const [voltage, setVoltage] = useState(lastByVoltage || now.typed("emf") !== "" || now.typed("cold_junction") !== "");
  const asked: readonly (typeof KEYS)[number][] = voltage ? ["display", "emf", "cold_junction"] : ["display", "probe"];
  const whole = asked.every((key) => now.typed(key).trim() !== "");
  const read = (event: Event) => {
    event.preventDefault();
    if (whole) now.read({ list: "compared", value: Object.fromEntries(asked.map((key) => [key, now.typed(key)])) as unknown as ProbeRead });
  };
  const label = { display: t("check.probe.display"), probe: t("check.probe.probe"), emf: t("check.probe.emf"), cold_junction: t("check.probe.cold_junction") };
  const some = check.found.length > 0;
  return (
    <>
      <StepHead of={`compared ${check.found.length}`}>{question?.sentence ?? t("check.probe.another")}</StepHead>
      <p class="check-why">{question?.why.sentence ?? t("check.probe.another_why")}</p>
      <form class="check-form" onSubmit={read}>
        <div class="check-pair">
          {asked.map((key, at) => (
            <BigNumber key={key} label={label[key]} value={now.typed(key)} units={[key === "emf" ? "mV" : temperatureUnit()]} unitsLabel={t("check.unit")} mistake={at === 0 ? now.wrong ?? undefined : undefined} busy={now.busy} onInput={(text) => now.type(key, text)} />
          ))}
        </div>
        <div class="check-actions">
          <Button kind="primary" submit busy={now.busy} disabled={!whole}>{some ? t("check.probe.add") : t("parts.next")}</Button>
          {some ? <Button onPress={now.thatWasAll}>{t("check.probe.all")}</Button> : null}
        </div>
        <Button kind="quiet" onPress={() => setVoltage((lastByVoltage = !voltage))}>{voltage ? t("check.probe.by_temperature") : t("check.probe.by_voltage")}</Button>
      </form>
      <p class="caution">{t("check.caution_probe")}</p>
      <ComparedSoFar now={now} check={check} />
    </>
  );
}

export function ComparedSoFar({ now, check }: { now: CheckNow; check: ProbeCheck }) {
  if (check.found.length === 0) return null;
  return (
    <section class="check-so-far" aria-labelledby="so-far">
      <h3 id="so-far">{t("check.probe.so_far")}</h3>
      <ol>
        {check.found.map((one, at) => (
          <li key={at}>
            <TakeOut now={now} at={at} of={t("check.probe.compared", { display: temperature(one.display_C), truth: temperature(one.true_C, 1), error: signedDifference(one.error_K), unsure: difference(2 * one.standard_uncertainty_K) })} />
          </li>
        ))}
      </ol>
    </section>
  );
}
