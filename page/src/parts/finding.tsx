import type { ComponentChildren } from "preact";
import type { Finding } from "../api/types";
import { asTold, t, type PlainWord } from "../words";

const WORDS: Record<Finding["level"], PlainWord> = {
  sound: "parts.level.sound",
  borderline: "parts.level.borderline",
  "fault expected": "parts.level.fault_expected",
  "cannot tell": "parts.level.cannot_tell",
};

/** The level as a word with a mark of its own shape; the shape, not a colour, tells them apart at a glance. */
export function LevelMark({ level, words }: { level: Finding["level"]; words?: string | undefined }) {
  return (
    <span class={`level level-${level.replace(" ", "-")}`}>
      <svg class="level-mark" viewBox="0 0 16 16" aria-hidden="true">
        {level === "sound" ? <path d="M2 8.5 6.2 13 14 3.5" class="level-stroke" /> : null}
        {level === "borderline" ? <path d="M1.5 8h13M8 3v10" class="level-stroke" /> : null}
        {level === "fault expected" ? <path d="M8 1 15 14.5H1Z" class="level-solid" /> : null}
        {level === "cannot tell" ? <circle cx="8" cy="8" r="6" class="level-stroke level-dashed" /> : null}
      </svg>
      {words ?? t(WORDS[level])}
    </span>
  );
}

/** One finding: level, sentence, what to change; `children` is help or a link that the screen adds. */
export function FindingView({ finding, first = false, children }: { finding: Finding; first?: boolean; children?: ComponentChildren }) {
  return (
    <article class={`finding finding-${finding.level.replace(" ", "-")}${first ? " finding-first" : ""}`}>
      <header class="finding-head">
        <LevelMark level={finding.level} words={finding.level_words} />
        <span class="finding-aspect">
          {finding.aspect_words ?? finding.aspect}
          {finding.piece ? ` · ${finding.piece}` : ""}
        </span>
      </header>
      <p class="finding-sentence">{asTold(finding.sentence)}</p>
      {finding.change ? (
        <p class="finding-change">
          <strong>{t("parts.finding.do_this")}</strong> {finding.change}
        </p>
      ) : null}
      {children}
    </article>
  );
}
