import { paths, type DocumentList, type Form, type KeptDocument } from "../../api/client";
import { AnswerView, Button, ButtonLink, Choice, Empty, Field, Heading, type Option } from "../../parts";
import { useChoiceWords } from "../../kept/choice_words";
import { newOf } from "../../kept/place";
import { ask, asked } from "../../shell/navigation";
import { useAnswer } from "../../state/use_answer";
import { counted, momentInFull, t } from "../../words";
import { fits, inOrder, type ProgramRow, type Wanted } from "./program_rows";

/** By a word, by the piece that waits, by the stage of work: in whatever order they come to mind. */
export function FindProgram() {
  const word = asked.value.get("word") ?? "";
  const piece = asked.value.get("piece") ?? "";
  const stage = asked.value.get("stage") ?? "";
  const change = (part: Record<string, string>) => ask({ word, piece, stage, ...part });
  const list = useAnswer<DocumentList<ProgramRow>>(paths.documents("program", { word }));
  const materials = useMaterials(piece);
  return (
    <>
      <Heading>{t("programs.find")}</Heading>
      <form class="finder" role="search" aria-label={t("programs.find")} onSubmit={(event) => event.preventDefault()}>
        <Field kind="search" label={t("programs.word")} help={t("programs.word_help")} value={word} onInput={(text) => change({ word: text })} />
        <PieceChoice value={piece} onChoose={(name) => change({ piece: name })} />
        <StageChoice value={stage} onChoose={(name) => change({ stage: name })} />
        {word || piece || stage ? <Button kind="quiet" onPress={() => ask({})}>{t("programs.all_again")}</Button> : null}
      </form>
      <AnswerView of={list}>{(answer) => <Found rows={answer.rows} wanted={{ materials, stage }} piece={piece} asked={word !== "" || piece !== "" || stage !== ""} />}</AnswerView>
      <div class="actions">
        <ButtonLink to={newOf("program", { begin: "1" })}>{t("programs.new")}</ButtonLink>
      </div>
    </>
  );
}

function Found({ rows, wanted, piece, asked: something }: { rows: readonly ProgramRow[]; wanted: Wanted; piece: string; asked: boolean }) {
  const stage = useChoiceWords("firing", "stage");
  const found = inOrder(rows.filter((row) => fits(row, wanted)), wanted);
  if (found.length === 0) {
    return <Empty title={something ? t("programs.nothing_found") : t("programs.none")}><p>{something ? t("programs.nothing_found_help") : t("programs.none_help")}</p></Empty>;
  }
  return (
    <>
      <p role="status">{counted("programs.found", found.length)}</p>
      <ul class="rows">
        {found.map((row) => (
          <li key={row.name}>
            <a class="row-link row-tall" href={`/programs/${encodeURIComponent(row.name)}${piece ? `?piece=${encodeURIComponent(piece)}` : ""}`}>
              <strong>{row.label || row.name}</strong>
              <span>{purposeOf(row, stage)}</span>
            </a>
          </li>
        ))}
      </ul>
    </>
  );
}

/** What it is for and when it was last used, in words. */
function purposeOf(row: ProgramRow, stage: (value: string) => string): string {
  const used = row.last_used
    ? row.last_furnace
      ? t("programs.last_used_in", { at: momentInFull(row.last_used), furnace: row.last_furnace })
      : t("programs.last_used", { at: momentInFull(row.last_used) })
    : t("programs.never_used");
  const stages = (row.stages ?? []).map(stage).join(", ");
  const materials = (row.materials ?? []).join(", ");
  return [stages, materials ? t("programs.for_material", { materials }) : "", used, row.locked ? t("parts.locked") : ""].filter(Boolean).join(" · ");
}

/** What a piece is made of. */
function useMaterials(piece: string): string[] {
  const document = useAnswer<KeptDocument>(piece === "" ? null : paths.document("piece", piece));
  const found = (document.answer?.values ?? []).filter((value) => /(^|\.)material$/.test(value.key)).map((value) => value.typed);
  return [...new Set(found)];
}

export function PieceChoice({ value, onChoose }: { value: string; onChoose: (name: string) => void }) {
  const pieces = useAnswer<DocumentList>(paths.documents("piece"));
  const options: Option[] = (pieces.answer?.rows ?? []).map((row) => ({ value: row.name, label: row.label ? `${row.name} · ${row.label}` : row.name }));
  return <Choice label={t("programs.piece")} options={options} value={value} empty={t("programs.any_piece")} onChoose={onChoose} />;
}

function StageChoice({ value, onChoose }: { value: string; onChoose: (name: string) => void }) {
  const form = useAnswer<Form>(paths.form("firing"));
  const stages = form.answer?.fields.find((field) => field.key === "stage")?.choices ?? [];
  return <Choice label={t("programs.stage")} options={stages} value={value} empty={t("programs.any_stage")} onChoose={onChoose} />;
}
