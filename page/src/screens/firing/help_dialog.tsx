// What a finding means, its equation and its source, in the reader's language.
import { AnswerView, Dialog } from "../../parts";
import { useAnswer } from "../../state/use_answer";
import { t } from "../../words";
import type { Help } from "./answers";

export function HelpDialog({ aspect, onClose }: { aspect: string; onClose: () => void }) {
  const help = useAnswer<Help>(`/api/help/${encodeURIComponent(aspect)}`);
  return (
    <Dialog title={help.answer?.title ?? aspect} onClose={onClose}>
      <AnswerView of={help}>
        {(answer) => (
          <div class="help">
            {answer.meaning.split("\n\n").map((paragraph) => (
              <p key={paragraph}>{paragraph}</p>
            ))}
            <Lines title={t("firing.help.equation")} lines={answer.equations ?? (answer.equation ? [answer.equation] : [])} code />
            <Lines title={t("firing.help.source")} lines={answer.sources ?? (answer.source ? [answer.source] : [])} />
          </div>
        )}
      </AnswerView>
    </Dialog>
  );
}

function Lines({ title, lines, code = false }: { title: string; lines: readonly string[]; code?: boolean }) {
  if (lines.length === 0) return null;
  return (
    <>
      <h3>{title}</h3>
      {lines.map((line) => (code ? <pre key={line} class="help-equation">{line}</pre> : <p key={line}>{line}</p>))}
    </>
  );
}
