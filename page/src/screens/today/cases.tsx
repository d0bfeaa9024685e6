import { useState } from "preact/hooks";
import type { CaseToday } from "../../api/client";
import { Button, ButtonLink, Empty } from "../../parts";
import { pathOf } from "../../shell/routes";
import { may } from "../../state/session";
import { useChoiceWords } from "../../state/use_choice_words";
import { counted, day, moment, t } from "../../words";
import { NextStepDialog } from "./next_step_dialog";
import { OverdueMark } from "./due";

/** Open cases, the most pressing first, each piece with what comes next for it. */
export function Cases({ cases, zone, today, again }: { cases: readonly CaseToday[]; zone: string; today: string; again: () => void }) {
  const [changing, setChanging] = useState<string | null>(null);
  return (
    <section class="section">
      <h2>{t("today.cases.title")}</h2>
      {cases.length === 0 ? (
        <Empty title={t("today.cases.nothing")}>
          <ButtonLink to="/records">{t("today.cases.enter")}</ButtonLink>
        </Empty>
      ) : (
        <ul class="board-cards">
          {cases.map((one) => (
            <CaseCard key={one.name} one={one} zone={zone} today={today} onChange={() => setChanging(one.name)} />
          ))}
        </ul>
      )}
      {changing ? <NextStepDialog name={changing} onClose={() => setChanging(null)} onKept={again} /> : null}
    </section>
  );
}

function CaseCard({ one, zone, today, onChange }: { one: CaseToday; zone: string; today: string; onChange: () => void }) {
  const says = useChoiceWords("firing");
  const late = one.wanted !== null && one.wanted < today;
  const teeth = one.teeth.length ? counted("today.cases.teeth", one.teeth.length, { list: one.teeth.join(", ") }) : null;
  return (
    <li class="sheet card">
      <div class="card-head">
        <h3>
          <a href={pathOf("case", one.name)}>{one.name}</a>
        </h3>
        {one.wanted ? (
          <p class="card-when">
            {late ? <OverdueMark words={t("today.cases.overdue")} /> : null} {t("today.cases.wanted", { day: day(one.wanted) })}
          </p>
        ) : null}
      </div>
      <p class="card-facts">{[one.label, teeth].filter(Boolean).join(" · ")}</p>
      <div class="next-step">
        <strong>{one.next_step ? t("today.cases.step", { step: one.next_step }) : t("today.cases.no_step")}</strong>
        {may("fire") ? (
          <Button kind="quiet" onPress={onChange} label={`${t("today.cases.step_button")}: ${one.name}`}>
            {t("today.cases.step_change")}
          </Button>
        ) : null}
      </div>
      <ul class="card-pieces">
        {one.pieces.map((piece) => (
          <li key={piece.piece}>
            <a href={pathOf("piece", piece.piece)}>{piece.piece}</a>{" "}
            <span>{piece.kept ? piece.label : t("today.cases.not_kept")}</span>
            {piece.next ? (
              <span>
                {"→ "}
                <a href={pathOf("firing", piece.next.firing)}>{says("stage", piece.next.stage)}</a> {piece.next.planned_for ? moment(piece.next.planned_for, zone) : null}
              </span>
            ) : null}
          </li>
        ))}
      </ul>
    </li>
  );
}
