import { paths, type DocumentList, type DocumentRow } from "../../api/client";
import { newOf } from "../../kept/place";
import { AnswerView, ButtonLink, Empty, Heading } from "../../parts";
import { useAnswer } from "../../state/use_answer";
import { t } from "../../words";

/** A sheet names the program it was typed into; that program is what a new one begins with. */
interface SheetRow extends DocumentRow {
  program?: string | null;
}

/** What a new program begins with: a maker's sheet, a program that is kept, or nothing. */
export function NewBegin() {
  const sheets = useAnswer<DocumentList<SheetRow>>(paths.documents("instruction"));
  const programs = useAnswer<DocumentList>(paths.documents("program"));
  return (
    <>
      <Heading>{t("programs.new_title")}</Heading>
      <p>{t("programs.begin_lead")}</p>
      <div class="actions">
        <ButtonLink kind="primary" to={newOf("program")}>{t("programs.begin_nothing")}</ButtonLink>
      </div>
      <section class="section" aria-labelledby="from-sheet">
        <h2 id="from-sheet">{t("programs.begin_sheet")}</h2>
        <AnswerView of={sheets}>
          {(answer) => (answer.rows.length === 0 ? <Empty title={t("programs.no_sheets")} /> : <ul class="rows">{answer.rows.map((row) => <SheetView key={row.name} row={row} />)}</ul>)}
        </AnswerView>
      </section>
      <section class="section" aria-labelledby="from-program">
        <h2 id="from-program">{t("programs.begin_program")}</h2>
        <AnswerView of={programs}>
          {(answer) => (
            answer.rows.length === 0 ? <Empty title={t("programs.none")} /> : (
              <ul class="rows">
                {answer.rows.map((row) => (
                  <li key={row.name}>
                    <a class="row-link" href={newOf("program", { from: row.name })}><strong>{row.label || row.name}</strong></a>
                  </li>
                ))}
              </ul>
            )
          )}
        </AnswerView>
      </section>
    </>
  );
}

function SheetView({ row }: { row: SheetRow }) {
  return (
    <li>
      {row.program ? (
        <a class="row-link" href={newOf("program", { from: row.program })}><strong>{row.label || row.name}</strong></a>
      ) : (
        <p class="row-link"><strong>{row.label || row.name}</strong> <span>{t("programs.sheet_without")}</span></p>
      )}
    </li>
  );
}
