import { paths, type DocumentList, type DocumentRow, type KeptDocument, type Kind } from "../../api/client";
import { newOf } from "../../kept/place";
import { AnswerView, ButtonLink, Empty, Heading } from "../../parts";
import { pathOf } from "../../shell/routes";
import { useAnswer } from "../../state/use_answer";
import { t, type PlainWord } from "../../words";
import { care, type DueAnswer, type DueItem } from "./care/answer";
import { DueLines, soon } from "./care/due_items";
import { checkedWords, displayWords, valuesOf } from "./reading";

export function FurnaceList() {
  const furnaces = useAnswer<DocumentList>(paths.documents("furnace"));
  const due = useAnswer<DueAnswer>(care.dueOfAll());
  return (
    <>
      <Heading>{t("furnaces.title")}</Heading>
      <AnswerView of={furnaces}>
        {(answer) =>
          answer.rows.length === 0 ? (
            <Empty title={t("furnaces.none")}><p>{t("furnaces.none_help")}</p></Empty>
          ) : (
            <ul class="cards">
              {answer.rows.map((row) => (
                <FurnaceCard key={row.name} row={row} due={soonOf(due.answer, row.name)} />
              ))}
            </ul>
          )
        }
      </AnswerView>
      <div class="actions actions-row screen-only">
        <ButtonLink kind="primary" to={newOf("furnace")}>{t("furnaces.new")}</ButtonLink>
      </div>
      <div class="two-columns">
        <Beside kind="tray" title="furnaces.trays" none="furnaces.no_trays" add="furnaces.new_tray" />
        <Beside kind="support" title="furnaces.supports" none="furnaces.no_supports" add="furnaces.new_support" />
      </div>
    </>
  );
}

function soonOf(answer: DueAnswer | null, furnace: string): DueItem[] {
  const found = answer?.furnaces.find((one) => one.furnace === furnace);
  return answer && found ? soon(found.due, answer.today) : [];
}

function FurnaceCard({ row, due }: { row: DocumentRow; due: DueItem[] }) {
  const document = useAnswer<KeptDocument>(paths.document("furnace", row.name));
  return (
    <li class="sheet">
      <h2>
        <a class="card-link" href={pathOf("furnace", row.name)}>{row.label || row.name}</a>
      </h2>
      <AnswerView of={document}>
        {(furnace) => {
          const of = valuesOf(furnace.values);
          return (
            <>
              <p>{displayWords(of)}</p>
              <p class="soft">{checkedWords(of)}</p>
            </>
          );
        }}
      </AnswerView>
      {due.length > 0 ? <DueLines items={due} /> : null}
    </li>
  );
}

function Beside({ kind, title, none, add }: { kind: Kind; title: PlainWord; none: PlainWord; add: PlainWord }) {
  const list = useAnswer<DocumentList>(paths.documents(kind));
  const words = { title: t(title), none: t(none), add: t(add) };
  return (
    <section class="section" aria-labelledby={`beside-${kind}`}>
      <h2 id={`beside-${kind}`}>{words.title}</h2>
      <AnswerView of={list}>
        {(answer) =>
          answer.rows.length === 0 ? <Empty title={words.none} /> : (
            <ul class="rows">
              {answer.rows.map((row) => (
                <li key={row.name}>
                  <a class="row-link" href={pathOf(kind, row.name)}><strong>{row.label || row.name}</strong>{row.label ? <span>{row.name}</span> : null}</a>
                </li>
              ))}
            </ul>
          )
        }
      </AnswerView>
      <div class="actions screen-only">
        <ButtonLink to={newOf(kind)}>{words.add}</ButtonLink>
      </div>
    </section>
  );
}
