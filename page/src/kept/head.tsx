import type { ComponentChildren } from "preact";
import type { KeptDocument } from "../api/types";
import { Heading, Notice } from "../parts";
import { pathOf } from "../shell/routes";
import type { Kind } from "../api/types";
import { day, momentInFull, t } from "../words";

export function labelOf(document: KeptDocument): string {
  return document.values.find((value) => value.key === "label")?.text || document.name;
}

/** What a document is called, which version this is, who kept it and when; and whether it is locked or an older one. */
export function Head({ document, children }: { document: KeptDocument; children?: ComponentChildren }) {
  const label = labelOf(document);
  const note = document.values.find((value) => value.key === "note")?.text;
  return (
    <>
      <Heading title={label}>{label}</Heading>
      <p class="under-heading">
        {label === document.name ? "" : `${document.name} · `}
        {t("kept.version_of", { version: document.version, at: momentInFull(document.at, document.zone), person: document.person })}
      </p>
      {note ? <p class="note">{note}</p> : null}
      {document.version < document.newest ? (
        <Notice title={t("kept.older", { version: document.version, newest: document.newest })}>
          <p>
            <a class="link" href={pathOf(document.kind as Kind, document.name)}>{t("kept.to_newest")}</a>
          </p>
        </Notice>
      ) : null}
      {document.locked_because !== null ? <Notice title={t("kept.locked")}><p>{document.locked_because}</p></Notice> : null}
      {document.made_before_check ? (
        <Notice title={t("kept.made_before_check")}>
          <p>{t("kept.made_before_check_of", { check: document.made_before_check.check, day: day(document.made_before_check.day) })}</p>
        </Notice>
      ) : null}
      {children}
    </>
  );
}
