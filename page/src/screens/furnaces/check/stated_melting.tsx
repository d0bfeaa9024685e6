import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { Button, Field } from "../../../parts";
import { t } from "../../../words";
import { BigNumber } from "./big_number";
import { differenceUnit, exampleShown, temperatureUnit } from "./shown";
import type { CheckNow } from "./use_check";

const MORE = ["wire.melting_u", "wire.stated_in"] as const;

/** How pure the wire is; or, where the procedure of the wire or of the furnace states it, at which temperature it melts. */
export function PurityOrMelting({ now, children }: { now: CheckNow; children: ComponentChildren }) {
  const melting = now.typed("wire.melting");
  const [stated, setStated] = useState(melting !== "");
  const say = (event: Event) => {
    event.preventDefault();
    const more = MORE.flatMap((key) => (now.typed(key).trim() ? [[key, now.typed(key).trim()] as const] : []));
    if (melting.trim() !== "") now.say({ "wire.melting": melting, ...Object.fromEntries(more) });
  };
  return (
    <>
      {stated ? (
        <form class="check-form" onSubmit={say}>
          <BigNumber label={t("check.wire.melting")} help={t("check.such_as", { example: exampleShown("960.5 °C") })} value={melting} units={[temperatureUnit()]} unitsLabel={t("check.unit")} mistake={now.wrong ?? undefined} busy={now.busy} onInput={(text) => now.type("wire.melting", text)} />
          <BigNumber label={t("check.probe.correction_u")} help={t("parts.optional")} value={now.typed("wire.melting_u")} units={[differenceUnit()]} unitsLabel={t("check.unit")} busy={now.busy} onInput={(text) => now.type("wire.melting_u", text)} />
          <Field label={t("check.wire.stated_in")} help={t("parts.optional")} value={now.typed("wire.stated_in")} onInput={(text) => now.type("wire.stated_in", text)} />
          <Button kind="primary" submit busy={now.busy} disabled={melting.trim() === ""}>{t("parts.next")}</Button>
        </form>
      ) : children}
      <Button kind="quiet" onPress={() => setStated(!stated)}>{stated ? t("check.wire.by_purity") : t("check.wire.by_melting")}</Button>
    </>
  );
}
