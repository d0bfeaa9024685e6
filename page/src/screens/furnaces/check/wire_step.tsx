import { useState } from "preact/hooks";
import type { Form } from "../../../api/client";
import { Button } from "../../../parts";
import { t, unbroken } from "../../../words";
import type { WireCheck } from "./answer";
import { valueWords } from "./answered";
import { BigNumber } from "./big_number";
import { difference, temperature, temperatureUnit, typedTemperature } from "./shown";
import { StepHead } from "./step_head";
import { TakeOut } from "./take_out";
import type { CheckNow } from "./use_check";

/** The next wire: at which display to fire it, and how it came out. */
export function WireStep({ now, check, next, form }: { now: CheckNow; check: WireCheck; next: NonNullable<WireCheck["next"]>; form: Form | null }) {
  const [other, setOther] = useState(now.typed("display") !== "");
  const display = other ? now.typed("display").trim() : typedTemperature(next.display_C);
  const number = check.trials.length + 1;
  return (
    <>
      <StepHead of={`wire ${number} ${next.display_C}`}>{next.sentence}</StepHead>
      <p class="check-display" aria-hidden="true">{temperature(next.display_C)}</p>
      <p class="check-why" id="why">{number === 1 ? t("check.wire.first", { size: difference(20, 0), rate: `${difference(30, 0)}/min` }) : t("check.wire.look")}</p>
      <HowItIsFired check={check} form={form} />
      {other ? (
        <div class="check-form">
          <BigNumber
            label={t("check.wire.other_value")}
            value={now.typed("display")}
            units={[temperatureUnit()]}
            unitsLabel={t("check.unit")}
            mistake={now.wrong ?? undefined}
            busy={now.busy}
            onInput={(text) => now.type("display", text)}
          />
        </div>
      ) : null}
      <div class="check-keys check-keys-two" role="group" aria-label={t("check.wire.came_out")} aria-describedby="why">
        {(["melted", "whole"] as const).map((melted) => (
          <button key={melted} type="button" class="check-key check-key-wire" disabled={now.busy || display === ""} onClick={() => now.read({ list: "trials", value: { display, melted } })}>
            <WireShape melted={melted === "melted"} />
            {melted === "melted" ? t("check.wire.melted") : t("check.wire.whole")}
          </button>
        ))}
      </div>
      <p class="caution">{t("check.caution")}</p>
      {other ? null : <Button kind="quiet" onPress={() => setOther(true)}>{t("check.wire.other")}</Button>}
      <WiresSoFar now={now} check={check} />
    </>
  );
}

/** What was answered of how a wire is fired and looked at, so that every one is treated alike. */
function HowItIsFired({ check, form }: { check: WireCheck; form: Form | null }) {
  const said = [
    ["wire.hold", t("check.wire.hold")],
    ["wire.gas", t("check.wire.gas")],
    ["wire.pressure", t("check.wire.pressure")],
    ["wire.criterion", t("check.wire.means_melted")],
  ] as const;
  const rows = said.flatMap(([key, label]) => check.answered.filter((one) => one.key === key).map((one) => `${label}: ${valueWords(one, form)}`));
  return rows.length === 0 ? null : <p class="check-why">{unbroken(`${rows.join("; ")}.`)}</p>;
}

/** A wire as one finds it: drawn into a bead, or with its cut ends as sharp as before. */
export function WireShape({ melted }: { melted: boolean }) {
  return (
    <svg class="wire-shape" viewBox="0 0 64 32" aria-hidden="true">
      {melted ? <circle cx="32" cy="16" r="9" class="wire-solid" /> : <path d="M6 13h52v6H6z" class="wire-solid" />}
    </svg>
  );
}

export function WiresSoFar({ now, check }: { now: CheckNow; check: WireCheck }) {
  if (check.trials.length === 0) return null;
  return (
    <section class="check-so-far" aria-labelledby="so-far">
      <h3 id="so-far">{t("check.wire.so_far")}</h3>
      <ol>
        {check.trials.map((trial, at) => (
          <li key={at}><TakeOut now={now} at={at} of={trial.melted ? t("check.wire.was_melted", { display: temperature(trial.display_C) }) : t("check.wire.was_whole", { display: temperature(trial.display_C) })} /></li>
        ))}
      </ol>
    </section>
  );
}
