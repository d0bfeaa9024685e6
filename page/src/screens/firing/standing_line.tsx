// One line that says what the answer on the screen is: of these values or of others, with its bands and its stress or still without them.
import { clock, t } from "../../words";
import { useDesk } from "./desk_context";

type Look = "know" | "asking" | "whole" | "wrong";

/** What the answer on the screen is, in words. */
function useStandingWords(): { words: string; look: Look } {
  const desk = useDesk();
  const shown = desk.shown.value;
  switch (desk.standing.value) {
    case "nothing":
      return { words: t(desk.name === null ? "firing.standing.choose" : "firing.standing.first"), look: "know" };
    case "asking":
      return shown ? { words: t("firing.standing.asking"), look: "asking" } : { words: t("firing.standing.first"), look: "know" };
    case "bands follow":
      return { words: t("firing.standing.bands_follow"), look: "know" };
    case "stress follows":
      return { words: t("firing.standing.stress_follows"), look: "know" };
    case "whole":
      return { words: t(shown?.answer.stress ? "firing.standing.whole" : "firing.standing.whole_without_stress"), look: "whole" };
    case "mistakes":
      return { words: t(shown ? "firing.standing.mistakes" : "firing.standing.mistakes_first"), look: "wrong" };
    case "refused":
      return { words: desk.refusal.value ?? t("firing.standing.refused"), look: "wrong" };
    case "away":
      return { words: shown ? t("firing.standing.away", { at: clock(shown.at) }) : t("firing.standing.away_nothing"), look: "wrong" };
  }
}

export function StandingLine() {
  const { words, look } = useStandingWords();
  return (
    <p class={`standing standing-${look}`} role="status">
      {words}
    </p>
  );
}

/** On paper nothing follows any more: a sheet whose picture or findings are not whole, or of other values, says so. */
export function PrintedStanding() {
  const { words, look } = useStandingWords();
  if (look === "whole") return null;
  return <p class="print-not-kept">{look === "wrong" ? words : t("firing.print.unfinished")}</p>;
}

/** Whether picture and findings are of other values than the table's. */
export function useIsOfOtherValues(): boolean {
  const standing = useDesk().standing.value;
  return standing === "mistakes" || standing === "refused" || standing === "away";
}
