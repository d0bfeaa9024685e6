import { t } from "../words/catalogue";

export interface Notes {
  /** What the value means, as it was understood. */
  said?: string | undefined;
  help?: string | undefined;
  mistake?: string | undefined;
}

/** The ids under which an input finds what stands below it, for aria-describedby. */
export function describedBy(id: string, { said, help, mistake }: Notes): string | undefined {
  return [said ? `${id}-said` : "", help ? `${id}-help` : "", mistake ? `${id}-mistake` : ""].filter(Boolean).join(" ") || undefined;
}

/** What stands below an input: what it is for, and what is wrong with what was typed. */
export function FieldNotes({ id, said, help, mistake }: Notes & { id: string }) {
  return (
    <>
      {said ? (
        <p class="field-said" id={`${id}-said`}>
          {said}
        </p>
      ) : null}
      {help ? (
        <p class="field-help" id={`${id}-help`}>
          {help}
        </p>
      ) : null}
      {mistake ? (
        <p class="field-mistake" id={`${id}-mistake`}>
          <strong>{t("parts.mistake")}</strong> {mistake}
        </p>
      ) : null}
    </>
  );
}
