import { useState } from "preact/hooks";
import { Button } from "../../../parts";
import { number, t } from "../../../words";
import type { CheckQuestion, MapCheck, TabSeen } from "./answer";
import { BigNumber } from "./big_number";
import { differenceUnit, signedDifference } from "./shown";
import { StepHead } from "./step_head";
import { TakeOut } from "./take_out";
import type { CheckNow } from "./use_check";
import { placeWords } from "./words_of";

type Side = "hotter" | "colder";

/** One of five tabs: as the reference, or as if so much hotter or colder; or its colour. All five are told in one way. */
export function MapStep({ now, check, question }: { now: CheckNow; check: MapCheck; question: CheckQuestion }) {
  const where = question.place ?? "";
  const [byColour, setByColour] = useState(now.typed("lightness") !== "");
  const colour = question.told_by === null ? byColour : question.told_by === "colour";
  const seen = (value: Omit<TabSeen, "where">) => now.read({ list: "tabs", value: { where, ...value } });
  return (
    <>
      <StepHead of={`map ${where}`}>{question.sentence}</StepHead>
      <p class="check-why" id="why">{question.why.sentence}</p>
      {colour ? <ByColour key={where} now={now} seen={seen} /> : <ByHeat key={where} now={now} seen={seen} />}
      {question.told_by !== null ? null : <Button kind="quiet" onPress={() => setByColour(!byColour)}>{byColour ? t("check.map.by_heat") : t("check.map.by_colour")}</Button>}
      <TabsSoFar now={now} check={check} />
    </>
  );
}

function ByHeat({ now, seen }: { now: CheckNow; seen: (value: Omit<TabSeen, "where">) => void }) {
  const [side, setSide] = useState<Side | null>(null);
  const size = now.typed("looked_like");
  const sides = [["hotter", t("check.map.hotter")], ["colder", t("check.map.colder")]] as const;
  const say = (event: Event) => {
    event.preventDefault();
    if (size.trim() !== "") seen({ looked_like: side === "colder" ? `-${size}` : size });
  };
  return (
    <>
      <div class="check-keys" role="group" aria-labelledby="question" aria-describedby="why">
        <button type="button" class="check-key" disabled={now.busy} onClick={() => seen({ looked_like: `0 ${differenceUnit()}` })}>{t("check.map.alike")}</button>
        {sides.map(([each, words]) => (
          <button key={each} type="button" class="check-key" aria-pressed={side === each} onClick={() => setSide(each)}>{words}</button>
        ))}
      </div>
      {side === null ? null : (
        <form class="check-form" onSubmit={say}>
          <BigNumber label={t("check.map.by_how_much")} help={t("check.map.by_how_much_help")} comesUp value={size} units={[differenceUnit()]} unitsLabel={t("check.unit")} mistake={now.wrong ?? undefined} busy={now.busy} onInput={(text) => now.type("looked_like", text)} />
          <Button kind="primary" submit busy={now.busy} disabled={size.trim() === ""}>{t("parts.next")}</Button>
        </form>
      )}
    </>
  );
}

const COLOUR = ["lightness", "redness", "yellowness"] as const;

function ByColour({ now, seen }: { now: CheckNow; seen: (value: Omit<TabSeen, "where">) => void }) {
  const label = { lightness: t("check.map.lightness"), redness: t("check.map.redness"), yellowness: t("check.map.yellowness") };
  const whole = COLOUR.every((key) => now.typed(key).trim() !== "");
  const say = (event: Event) => {
    event.preventDefault();
    if (whole) seen(Object.fromEntries(COLOUR.map((key) => [key, now.typed(key)])));
  };
  return (
    <form class="check-form" onSubmit={say}>
      <div class="check-pair">
        {COLOUR.map((key, at) => (
          <BigNumber key={key} label={label[key]} value={now.typed(key)} units={[""]} unitsLabel={t("check.unit")} mistake={at === 0 ? now.wrong ?? undefined : undefined} busy={now.busy} onInput={(text) => now.type(key, text)} />
        ))}
      </div>
      <Button kind="primary" submit busy={now.busy} disabled={!whole}>{t("parts.next")}</Button>
    </form>
  );
}

export function TabsSoFar({ now, check }: { now: CheckNow; check: MapCheck }) {
  if (check.found.length === 0) return null;
  return (
    <section class="check-so-far" aria-labelledby="so-far">
      <h3 id="so-far">{t("check.map.so_far")}</h3>
      <ul>
        {check.found.map((tab, at) => (
          <li key={tab.where}><TakeOut now={now} at={at} of={`${placeWords(tab.where)}: ${lookWords(tab)}`} /></li>
        ))}
      </ul>
    </section>
  );
}

function lookWords({ hotter_K, colour_difference }: MapCheck["found"][number]): string {
  if (hotter_K !== null) return signedDifference(hotter_K);
  return colour_difference !== null ? t("check.map.colour_from_middle", { size: number(colour_difference, 1) }) : t("check.map.colour_told");
}
