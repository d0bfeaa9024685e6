import { useEffect, useState } from "preact/hooks";
import { documents, paths, Refused, type Form, type Mistake } from "../../api/client";
import { AnswerView, Button, DocumentForm, DraftBar, Notice, Wrong, changesOf, type Values } from "../../parts";
import { useAnswer } from "../../state/use_answer";
import { useDraft } from "../../state/use_draft";
import { useMistakesWhileFilling } from "../../state/while_filling";
import { useWork } from "../../state/use_work";
import { counted, t } from "../../words";

/** A new furnace from the field table of its kind; what is wrong stands at its field. */
export function FurnaceForm({ onKept }: { onKept: (name: string) => void }) {
  const form = useAnswer<Form>(paths.form("furnace"));
  return <AnswerView of={form}>{({ fields }) => <FurnaceFields fields={fields} onKept={onKept} />}</AnswerView>;
}

function FurnaceFields({ fields, onKept }: { fields: Form["fields"]; onKept: (name: string) => void }) {
  const draft = useDraft<Values>("furnaces", "", 0);
  const values = draft.values.value ?? {};
  const [mistakes, setMistakes] = useState<readonly Mistake[]>([]);
  useEffect(() => {
    if (mistakes.length) document.querySelector<HTMLElement>("main [aria-invalid=true]")?.focus();
  }, [mistakes]);
  const { name: typedName = "", ...typed } = changesOf({}, values).set;
  const whileFilling = useMistakesWhileFilling({ kind: "furnace", name: typedName || "furnace", from: 0, set: typed, unset: [] });
  const { busy, wrong, run } = useWork(() => {
    draft.end();
    onKept(values["name"] ?? "");
  });
  const keep = async () => {
    const { set } = changesOf({}, values);
    const { name = "", ...rest } = set;
    setMistakes([]);
    const checked = await documents.check("furnace", { name, set: rest });
    setMistakes(checked.mistakes);
    if (checked.mistakes.length) throw new Error(counted("parts.mistakes", checked.mistakes.length));
    return documents.add("furnace", { name, set: rest, reason: t("setup.lab.first_reason") }).catch((error: unknown) => {
      if (error instanceof Refused) setMistakes(error.mistakes);
      throw error;
    });
  };
  const submit = (event: Event) => {
    event.preventDefault();
    run(keep);
  };
  const whole = mistakes.filter(({ key }) => key === "");
  return (
    <form class="form" onSubmit={submit}>
      <DraftBar of={draft} />
      <DocumentForm fields={fields} values={values} onChange={(next) => draft.change(next)} mistakes={[...mistakes, ...whileFilling]} />
      <Wrong sentence={wrong} />
      {whole.length ? (
        <Notice kind="wrong">
          {whole.map(({ sentence }) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </Notice>
      ) : null}
      <Button kind="primary" submit busy={busy}>
        {t("parts.keep")}
      </Button>
    </form>
  );
}
