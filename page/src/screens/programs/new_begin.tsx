import { paths, type DocumentList, type KeptDocument } from "../../api/client";
import { newOf } from "../../kept/place";
import { AnswerView, ButtonLink, Empty, Heading } from "../../parts";
import { useAnswer } from "../../state/use_answer";
import { t } from "../../words";

/** What a new program begins with: a maker's sheet, a program that is kept, or nothing. */
export function NewBegin() {
  const sheets = useAnswer<DocumentList>(paths.documents("instruction"));
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
          {(answer) => (answer.rows.length === 0 ? <Empty title={t("programs.no_sheets")} /> : <ul class="rows">{answer.rows.map((row) => <SheetRow key={row.name} name={row.name} label={row.label} />)}</ul>)}
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

/** A sheet names the program it was typed into; that program is what a new one begins with. */
function SheetRow({ name, label }: { name: string; label: string }) {
  const sheet = useAnswer<KeptDocument>(paths.document("instruction", name));
  const program = sheet.answer?.values.find((value) => value.key === "program")?.typed;
  return (
    <li>
      {program ? (
        <a class="row-link" href={newOf("program", { from: program })}><strong>{label || name}</strong></a>
      ) : (
        <p class="row-link"><strong>{label || name}</strong> <span>{t("programs.sheet_without")}</span></p>
      )}
    </li>
  );
}
