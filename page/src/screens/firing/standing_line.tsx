// One line that says what the answer on the screen is: of these values or of others, with its bands and its stress or still without them.
import { clock, t } from "../../words";
import { useDesk } from "./desk_context";

export function StandingLine() {
  const desk = useDesk();
  const standing = desk.standing.value;
  const shown = desk.shown.value;
  const at = shown ? clock(shown.at) : "";
  const line = (words: string, look: string) => (
    <p class={`standing standing-${look}`} role="status">
      {words}
    </p>
  );
  switch (standing) {
    case "nothing":
      return line(t(desk.name === null ? "firing.standing.choose" : "firing.standing.first"), "know");
    case "asking":
      return shown ? line(t("firing.standing.asking"), "asking") : line(t("firing.standing.first"), "know");
    case "bands follow":
      return line(t("firing.standing.bands_follow"), "know");
    case "stress follows":
      return line(t("firing.standing.stress_follows"), "know");
    case "whole":
      return line(t(shown?.answer.stress ? "firing.standing.whole" : "firing.standing.whole_without_stress"), "whole");
    case "mistakes":
      return line(t(shown ? "firing.standing.mistakes" : "firing.standing.mistakes_first"), "wrong");
    case "refused":
      return line(desk.refusal.value ?? t("firing.standing.refused"), "wrong");
    case "away":
      return line(shown ? t("firing.standing.away", { at }) : t("firing.standing.away_nothing"), "wrong");
  }
}

/** Whether picture and findings are of other values than the table's. */
export function useIsOfOtherValues(): boolean {
  const standing = useDesk().standing.value;
  return standing === "mistakes" || standing === "refused" || standing === "away";
}
