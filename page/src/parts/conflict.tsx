import { paths, type Kind } from "../api/client";
import { useAnswer } from "../state/use_answer";
import { t } from "../words";
import { Button } from "./button";
import { Dialog } from "./dialog";
import { AnswerView } from "./states";

export interface ConflictProps {
  kind: Kind;
  name: string;
  from: number;
  newest: number;
  /** What the person changed, a sentence each: "hold: 1 min → 2 min". */
  mine: readonly string[];
  onTakeTheirs: () => void;
  onKeepMine: () => void;
  onClose: () => void;
}

interface Difference {
  changes: { words: string }[];
}

/** Two versions at once: what the newer one changed, what the person changed, and the choice between them. */
export function Conflict({ kind, name, from, newest, mine, onTakeTheirs, onKeepMine, onClose }: ConflictProps) {
  const difference = useAnswer<Difference>(paths.difference(kind, name, from, newest), false);
  return (
    <Dialog title={t("parts.conflict.title")} onClose={onClose}>
      <p>{t("parts.conflict.says", { from, name, newest })}</p>
      <div class="conflict-sides">
        <section>
          <h3>{t("parts.conflict.theirs")}</h3>
          <AnswerView of={difference}>{(answer) => <Sentences all={answer.changes.map(({ words }) => words)} />}</AnswerView>
        </section>
        <section>
          <h3>{t("parts.conflict.yours")}</h3>
          <Sentences all={mine} />
        </section>
      </div>
      <div class="actions">
        <Button kind="primary" onPress={onKeepMine}>
          {t("parts.conflict.keep_mine")}
        </Button>
        <p class="field-help">{t("parts.conflict.keep_mine_help")}</p>
        <Button onPress={onTakeTheirs}>{t("parts.conflict.take_theirs")}</Button>
        <p class="field-help">{t("parts.conflict.take_theirs_help")}</p>
      </div>
    </Dialog>
  );
}

function Sentences({ all }: { all: readonly string[] }) {
  if (all.length === 0) return <p>{t("parts.conflict.same")}</p>;
  return (
    <ul>
      {all.map((one) => (
        <li key={one}>{one}</li>
      ))}
    </ul>
  );
}
