// The sheet for the bench or the case: picture, program, findings, cautions, who and when; marked where it is not kept.
import { useEffect, useRef } from "preact/hooks";
import { LevelMark } from "../../parts";
import type { Draft } from "../../state/drafts";
import { session } from "../../state/session";
import { asTold, momentInFull, t } from "../../words";
import { changedDocuments, namesOf } from "./bench";
import { useTitle } from "./bench_heading";
import { useDesk } from "./desk_context";
import type { FiringDraft } from "./firing_draft";
import { linesToKeyIn } from "./key_in_card";
import { FIRING } from "./bench";
import { PrintedStanding } from "./standing_line";

const CAUTIONS = ["burns", "tray", "fumes", "dust", "eyes"] as const;

export function PrintSheet({ draft }: { draft: Draft<FiringDraft> }) {
  const desk = useDesk();
  const title = useTitle();
  const names = namesOf(desk.bench.value);
  const shown = desk.shown.value;
  const version = desk.versions.value[FIRING];
  const rehearsal = shown?.answer.rehearsal;
  const notKept = desk.name === null || changedDocuments(desk.bench.value).length > 0 || draft.values.value !== null;
  const furnace = desk.values(`furnace ${names.furnace}`)["label"] || names.furnace;
  return (
    <article class="print-sheet">
      <h1>{title}</h1>
      {notKept ? <p class="print-not-kept">{t("firing.print.not_kept")}</p> : null}
      <p>
        {[
          desk.name !== null && version !== undefined ? t("firing.heading.kept_as", { name: desk.name, version }) : "",
          t("firing.print.furnace", { furnace }),
          t("firing.print.tray", { tray: names.tray }),
          names.instruction ? t("firing.print.instruction", { instruction: names.instruction }) : t("firing.print.no_instruction"),
          t("firing.print.printed", { at: momentInFull(new Date().toISOString()), person: session.value?.person ?? "" }),
        ]
          .filter(Boolean)
          .join(" · ")}
      </p>
      <PrintedStanding />
      <div class="print-two">
        <PrintedPicture />
        <section class="print-program">
          <h2>{t("firing.print.program", { program: names.program })}</h2>
          <dl>
            {linesToKeyIn(desk.values(`program ${names.program}`)).map((line) => (
              <div key={line.key}>
                <dt>
                  {line.step}, {line.what}
                </dt>
                <dd>{line.value}</dd>
              </div>
            ))}
          </dl>
        </section>
      </div>
      {rehearsal ? (
        <section>
          <h2>{t("firing.pane.findings")}</h2>
          <ul class="print-findings">
            {rehearsal.findings.map((finding, index) => (
              <li key={index}>
                <LevelMark level={finding.level} words={finding.level_words} /> {finding.aspect_words ?? finding.aspect}
                {finding.piece ? `, ${finding.piece}` : ""}: {asTold(finding.sentence)} {finding.change ?? ""}
              </li>
            ))}
          </ul>
        </section>
      ) : null}
      <section>
        <h2>{t("firing.print.cautions")}</h2>
        <ul>
          {CAUTIONS.map((caution) => (
            <li key={caution}>{t(`firing.caution.${caution}`)}</li>
          ))}
        </ul>
        {notKept ? <p>{t("firing.print.trial")}</p> : null}
      </section>
      {rehearsal ? <p class="print-versions">{t("firing.print.versions", { program: rehearsal.program_version, model: rehearsal.model_version, inputs: rehearsal.inputs_hash.slice(0, 12) })}</p> : null}
    </article>
  );
}

/** The picture on the sheet is a copy of the one on the screen, made when the page is printed and thrown away after. */
function PrintedPicture() {
  const desk = useDesk();
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const before = () => {
      const picture = desk.shown.peek()?.picture;
      if (picture && box.current) box.current.replaceChildren(picture.cloneNode(true));
    };
    const after = () => box.current?.replaceChildren();
    addEventListener("beforeprint", before);
    addEventListener("afterprint", after);
    return () => {
      removeEventListener("beforeprint", before);
      removeEventListener("afterprint", after);
    };
  }, [desk]);
  return <div ref={box} class="print-picture" />;
}
