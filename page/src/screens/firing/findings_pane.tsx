// The findings, worst first: level, sentence, number with its band, limit, what to change; the sound ones in one short list.
import { useState } from "preact/hooks";
import { Button, LevelMark } from "../../parts";
import { asTold, leadOf, t, units } from "../../words";
import { documentNamed } from "./bench";
import { useDesk } from "./desk_context";
import { HelpDialog } from "./help_dialog";
import { fieldId } from "./program_table";
import type { FoundFinding, Suggestion } from "./answers";
import { useIsOfOtherValues } from "./standing_line";
import { missingPlace } from "./missing";
import { band, withItsUnit } from "./quantities";

export function FindingsPane() {
  const desk = useDesk();
  const [helped, setHelped] = useState<string | null>(null);
  const other = useIsOfOtherValues();
  const rehearsal = desk.shown.value?.answer.rehearsal;
  if (!rehearsal) return null;
  const grave = rehearsal.findings.filter((finding) => finding.level !== "sound");
  const sound = rehearsal.findings.filter((finding) => finding.level === "sound");
  return (
    <div class={`findings${other ? " of-other-values" : ""}`}>
      {grave.length === 0 ? <p class="findings-none">{t("firing.findings.none")}</p> : null}
      <ol class="findings-list">
        {grave.map((finding, index) => (
          <li key={keyOf(finding)}>
            <OneFinding finding={finding} first={index === 0} onHelp={setHelped} />
          </li>
        ))}
      </ol>
      {sound.length ? (
        <details class="findings-sound">
          <summary>{t("firing.findings.sound")}</summary>
          <ol class="findings-list">
            {sound.map((finding) => (
              <li key={keyOf(finding)}>
                <OneFinding finding={finding} onHelp={setHelped} />
              </li>
            ))}
          </ol>
        </details>
      ) : null}
      {helped !== null ? <HelpDialog aspect={helped} onClose={() => setHelped(null)} /> : null}
    </div>
  );
}

function keyOf(finding: FoundFinding): string {
  return [finding.aspect, finding.piece, finding.where, finding.level, finding.limit].join("|");
}

function OneFinding({ finding, first = false, onHelp }: { finding: FoundFinding; first?: boolean; onHelp: (aspect: string) => void }) {
  const aspect = finding.aspect_words ?? finding.aspect;
  const [lead, rest] = leadOf(asTold(finding.sentence));
  return (
    <article class={`found found-${finding.level.replace(" ", "-")}${first ? " found-first" : ""}`}>
      <header class="found-head">
        <LevelMark level={finding.level} words={finding.level_words} />
        <span class="found-aspect">
          {aspect}
          {finding.piece ? ` · ${finding.piece}` : ""}
        </span>
        <button type="button" class="found-help" onClick={() => onHelp(finding.aspect)} aria-label={t("firing.findings.help_on", { aspect })}>
          <span aria-hidden="true">?</span>
        </button>
      </header>
      <p class="found-sentence">{lead}</p>
      {rest ? <p class="found-rest">{rest}</p> : null}
      <Numbers finding={finding} />
      {finding.change ? (
        <p class="found-change">
          <strong>{t("parts.finding.do_this")}</strong> {asTold(finding.change)}
        </p>
      ) : null}
      <Apply suggestions={finding.advised ?? []} />
      <Missing finding={finding} />
    </article>
  );
}

function Numbers({ finding }: { finding: FoundFinding }) {
  const { number, unit, low, high, limit } = finding;
  if (number === null && limit === null) return null;
  const value = number === null ? "" : (finding.number_words ?? withItsUnit(number, unit, units.value));
  const range = finding.band_words ?? (low !== null && high !== null && low !== high ? band(low, high, unit, units.value) : "");
  const bound = limit === null ? "" : (finding.limit_words ?? withItsUnit(limit, unit, units.value));
  const whose = finding.limit_from_words ?? whoseLimit(finding.limit_from);
  return (
    <p class="found-numbers">
      {value ? <strong>{value}</strong> : null}
      {range ? ` (${range})` : ""}
      {bound ? ` · ${t("firing.findings.limit", { limit: bound, whose })}` : ""}
    </p>
  );
}

function whoseLimit(from: string | null): string {
  return from === "instruction" ? t("firing.findings.of_instruction") : from === "lab" ? t("firing.findings.of_lab") : t("firing.findings.of_heatwork");
}

function Apply({ suggestions }: { suggestions: readonly Suggestion[] }) {
  const desk = useDesk();
  const open = suggestions.filter(({ of, key, value }) => desk.values(documentNamed(desk.bench.value, of))[key] !== value);
  if (suggestions.length === 0) return null;
  if (open.length === 0) return <p class="found-applied">{t("firing.findings.applied")}</p>;
  const apply = () => {
    const bench = desk.bench.peek();
    const changes = new Map<string, Record<string, string>>();
    for (const { of, key, value } of open) {
      const place = documentNamed(bench, of);
      changes.set(place, { ...(changes.get(place) ?? desk.values(place)), [key]: value });
    }
    desk.typeAll([...changes].map(([of, values]) => ({ of, values })));
    const one = open[0];
    if (one) desk.goTo(fieldId(documentNamed(bench, one.of), one.key));
  };
  const only = open.length === 1 ? open[0] : undefined;
  return (
    <Button kind="plain" onPress={apply}>
      {only ? t("firing.findings.apply_one", { value: only.value }) : t("firing.findings.apply_all")}
    </Button>
  );
}

function Missing({ finding }: { finding: FoundFinding }) {
  const desk = useDesk();
  const place = finding.level === "cannot tell" ? missingPlace(finding, desk.bench.value) : null;
  if (!place) return null;
  const { field } = place;
  if (field === undefined) {
    return (
      <a class="button button-plain" href={place.to}>
        {t("firing.findings.give_there")}
      </a>
    );
  }
  return <Button onPress={() => desk.goTo(field)}>{t("firing.findings.give_here")}</Button>;
}
