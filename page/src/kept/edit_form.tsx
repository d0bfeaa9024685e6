import { atItsField } from "../api/client";
import type { FormField } from "../api/types";
import { Button, ButtonLink, changesInWords, Conflict, DocumentForm, DraftBar, Field, idOfKey, labelOfKey, Notice } from "../parts";
import { pathOf } from "../shell/routes";
import { counted, t } from "../words";
import { nameOfLabel, useEdit, type EditAsked } from "./edit";

export type EditFormProps = EditAsked & { fields: readonly FormField[]; whole?: boolean; onCancel: () => void };

/** A new document, or the next version of one: fields, reason, and what is wrong at the field where it is. */
export function EditForm({ fields, whole = false, onCancel, ...asked }: EditFormProps) {
  const edit = useEdit(asked);
  const { now, mistakes } = edit;
  const changing = asked.document !== null;
  return (
    <form
      class="form edit-form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        if (!edit.busy) void edit.keep();
      }}
    >
      <DraftBar of={edit.draft} />
      <DocumentForm fields={fields} whole={whole} without={["name"]} values={now.values} mistakes={edit.atFields} onChange={(values) => edit.change({ values })} />
      {changing ? null : (
        <Field id={idOfKey("name")} label={t("kept.name")} help={t("kept.name_help")} value={now.name || (asked.nameFrom ?? nameOfLabel)(now.values)} mistake={sentenceOf(mistakes, "name")} onInput={(name) => edit.change({ name })} />
      )}
      <Field
        id={idOfKey("reason")}
        label={changing ? t("parts.reason") : `${t("parts.reason")} (${t("parts.optional")})`}
        help={t("parts.reason_help")}
        value={now.reason}
        required={changing}
        mistake={sentenceOf(mistakes, "reason")}
        onInput={(reason) => edit.change({ reason })}
      />
      <Wrong fields={fields} mistakes={mistakes} refused={edit.refused} />
      <div class="actions">
        <Button kind="primary" submit busy={edit.busy} disabled={!edit.changed}>{t("parts.keep")}</Button>
        <Button kind="quiet" onPress={onCancel}>{t("parts.cancel")}</Button>
        {edit.taken !== null ? <ButtonLink to={pathOf(asked.kind, edit.taken)}>{t("kept.open_taken", { name: edit.taken })}</ButtonLink> : null}
      </div>
      {edit.conflict && asked.document ? (
        <Conflict
          kind={asked.kind}
          name={asked.document.name}
          from={edit.conflict.from}
          newest={edit.conflict.newest}
          mine={changesInWords(edit.before, now.values, (key) => labelOfKey(fields, key))}
          onTakeTheirs={edit.takeTheirs}
          onKeepMine={() => void edit.layOver()}
          onClose={edit.closeConflict}
        />
      ) : null}
    </form>
  );
}

type Mistakes = ReturnType<typeof useEdit>["mistakes"];

function sentenceOf(mistakes: Mistakes, key: string): string | undefined {
  return mistakes.find((mistake) => mistake.key === key)?.sentence;
}

/** How many things are wrong and where; the server's own sentence where it names no field. */
function Wrong({ fields, mistakes, refused }: { fields: readonly FormField[]; mistakes: Mistakes; refused: string | null }) {
  if (mistakes.length === 0 && refused === null) return null;
  if (mistakes.length === 0) return <Notice kind="wrong" title={t("parts.kept_nothing")}><p>{refused}</p></Notice>;
  return (
    <Notice kind="wrong" title={`${t("parts.kept_nothing")} ${counted("parts.mistakes", mistakes.length)}`}>
      <ul>
        {mistakes.map((mistake) => (
          <li key={mistake.key + mistake.sentence}>
            {labelOfKey(fields, mistake.key)}: {atItsField(mistake)}
          </li>
        ))}
      </ul>
    </Notice>
  );
}
