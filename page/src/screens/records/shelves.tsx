import { Choice } from "../../parts";
import { go } from "../../shell/navigation";
import { t, type PlainWord } from "../../words";

const SHELVES: readonly { at: string; word: PlainWord }[] = [
  { at: "case", word: "records.kinds.case" },
  { at: "piece", word: "records.kinds.piece" },
  { at: "lot", word: "records.kinds.lot" },
  { at: "check", word: "records.kinds.check" },
  { at: "reference", word: "records.kinds.reference" },
  { at: "deviation", word: "records.kinds.deviation" },
  { at: "bench-step", word: "records.kinds.bench_step" },
  { at: "instruction", word: "records.kinds.instruction" },
  { at: "questions", word: "records.questions.title" },
  { at: "trail", word: "records.trail.title" },
];

/** The parts of the records, side by side. */
export function Shelves({ at }: { at: string }) {
  return (
    <>
      <div class="shelves-narrow screen-only">
        <Choice label={t("records.parts")} options={SHELVES.map((shelf) => ({ value: shelf.at, label: t(shelf.word) }))} value={at} empty={null} onChoose={(next) => go(`/records/${next}`)} />
      </div>
      <nav class="shelves screen-only" aria-label={t("records.parts")}>
      {SHELVES.map((shelf) => (
        <a key={shelf.at} class="shelf" href={`/records/${shelf.at}`} aria-current={shelf.at === at ? "page" : undefined}>
          {t(shelf.word)}
        </a>
      ))}
    </nav>
    </>
  );
}
