// Table, picture and findings: side by side on a bench PC, one at a time on a small screen with the first finding always in reach.
import { useEffect, useRef, useState } from "preact/hooks";
import { LevelMark } from "../../parts";
import { asTold, leadOf, t, type PlainWord } from "../../words";
import { useDesk } from "./desk_context";
import { FindingsPane } from "./findings_pane";
import { LoadPanel } from "./load_panel";
import { NumbersPane } from "./numbers_pane";
import { PicturePane } from "./picture_pane";
import { ProgramTable } from "./program_table";
import { LooseMistakes, mistakeWords } from "./loose_mistakes";
import { StandingLine, useIsOfOtherValues } from "./standing_line";

type Pane = "program" | "load" | "picture" | "findings" | "numbers";
const LEFT = ["program", "load"] as const;
const MIDDLE = ["picture", "numbers"] as const;
const SMALL: readonly Pane[] = ["program", "load", "picture", "findings", "numbers"];

export function BenchPanes() {
  const desk = useDesk();
  const [left, setLeft] = useState<(typeof LEFT)[number]>(desk.name === null ? "load" : "program");
  const [middle, setMiddle] = useState<(typeof MIDDLE)[number]>("picture");
  const [small, setSmall] = useState<Pane>(desk.name === null ? "load" : "program");
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => filled(box.current), []);
  const other = useIsOfOtherValues();
  const choose = (pane: Pane) => {
    setSmall(pane);
    if (pane === "program" || pane === "load") setLeft(pane);
    if (pane === "picture" || pane === "numbers") setMiddle(pane);
  };
  const { wanted } = desk;
  useEffect(() => {
    if (wanted.value === null) return;
    choose(wanted.value.startsWith("program-") ? "program" : "load");
    const id = wanted.value;
    wanted.value = null;
    requestAnimationFrame(() => document.getElementById(id)?.focus());
  }, [wanted.value]);
  return (
    <div ref={box} class={`panes panes-show-${small}`}>
      <Summary onShow={() => choose("findings")} />
      <Keys class="panes-small-keys" of={SMALL} chosen={small} onChoose={choose} />
      <div class="pane pane-table">
        <Keys class="pane-keys" of={LEFT} chosen={left} onChoose={choose} />
        <div class="pane-scrolls">{left === "program" ? <ProgramTable /> : <LoadPanel />}</div>
      </div>
      <div class="pane pane-picture">
        <Keys class="pane-keys" of={MIDDLE} chosen={middle} onChoose={choose} />
        <div class={`pane-picture-inside${other ? " of-other-values" : ""}`} hidden={middle !== "picture"}>
          <PicturePane />
        </div>
        {middle === "numbers" ? (
          <div class="pane-scrolls" tabIndex={0} role="region" aria-label={t("firing.pane.numbers")}>
            <NumbersPane />
          </div>
        ) : null}
      </div>
      <div class="pane pane-findings">
        <StandingLine />
        <LooseMistakes />
        <div class="pane-scrolls" tabIndex={0} role="region" aria-label={t("firing.pane.findings")}>
          <FindingsPane />
        </div>
      </div>
    </div>
  );
}

interface KeysProps<P extends Pane> {
  class: string;
  of: readonly P[];
  chosen: P;
  onChoose: (pane: P) => void;
}

function Keys<P extends Pane>({ class: look, of, chosen, onChoose }: KeysProps<P>) {
  return (
    <div class={look} role="group" aria-label={t("firing.pane.shown")}>
      {of.map((pane) => (
        <button key={pane} type="button" class="pane-key" aria-pressed={pane === chosen} onClick={() => onChoose(pane)}>
          {t(`firing.pane.${pane}` as PlainWord & `firing.pane.${Pane}`)}
        </button>
      ))}
    </div>
  );
}

/** On a small screen: level and sentence of the first finding, always in reach. */
function Summary({ onShow }: { onShow: () => void }) {
  const desk = useDesk();
  const other = useIsOfOtherValues();
  const first = desk.shown.value?.answer.rehearsal?.findings[0];
  const mistake = desk.mistakes.value[0];
  if (mistake) {
    return (
      <button type="button" class="panes-summary of-other-values" onClick={onShow}>
        <strong>{t("parts.mistake")}</strong>
        <span class="panes-summary-sentence">{mistakeWords(desk, mistake)}</span>
      </button>
    );
  }
  if (!first) return null;
  return (
    <button type="button" class={`panes-summary${other ? " of-other-values" : ""}`} onClick={onShow}>
      <LevelMark level={first.level} words={first.level_words} />
      <span class="panes-summary-sentence">{leadOf(asTold(first.sentence))[0]}</span>
    </button>
  );
}

/** Tells the panes where they begin, so that they end where the window does; returns the way to stop. */
function filled(box: HTMLElement | null): () => void {
  if (!box) return () => {};
  const tell = () => box.style.setProperty("--panes-top", `${Math.round(box.getBoundingClientRect().top + window.scrollY)}px`);
  tell();
  const observer = new ResizeObserver(tell);
  observer.observe(document.body);
  const head = box.parentElement?.querySelector(".bench-head");
  if (head) observer.observe(head);
  return () => observer.disconnect();
}
