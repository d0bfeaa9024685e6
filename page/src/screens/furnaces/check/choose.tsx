import { newOf } from "../../../kept/place";
import { Heading } from "../../../parts";
import { pathOf } from "../../../shell/routes";
import { t, type PlainWord } from "../../../words";
import type { CheckKind } from "./answer";
import { pathOfCheck } from "./use_check";
import { kindWords } from "./words_of";

const CHOICES: readonly { kind: CheckKind; needs: PlainWord }[] = [
  { kind: "temperature", needs: "check.needs.temperature" },
  { kind: "thermocouple", needs: "check.needs.thermocouple" },
  { kind: "chamber-map", needs: "check.needs.chamber_map" },
  { kind: "vacuum", needs: "check.needs.vacuum" },
  { kind: "heating", needs: "check.needs.heating" },
];

/** What is checked, and by what; each with what it needs. */
export function ChooseCheck({ furnace }: { furnace: string }) {
  return (
    <div class="check check-chooses">
      <p class="check-where"><a class="name-link" href={pathOf("furnace", furnace)}>{furnace}</a></p>
      <Heading title={t("check.title", { furnace })}>{t("check.choose")}</Heading>
      <ul class="check-choices">
        {CHOICES.map(({ kind, needs }) => (
          <li key={kind}>
            <a class="check-key check-choice" href={pathOfCheck(furnace, kind, null)}>
              <strong>{kindWords(kind)}</strong>
              <span>{t(needs)}</span>
            </a>
          </li>
        ))}
      </ul>
      <p class="check-where"><a class="name-link" href={newOf("check", { furnace })}>{t("furnaces.new_check")}</a></p>
      <p class="caution">{t("check.caution")}</p>
    </div>
  );
}
