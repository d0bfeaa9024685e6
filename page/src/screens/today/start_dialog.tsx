import { useState } from "preact/hooks";
import { bench, paths, type Form, type FormField, type KeptDocument } from "../../api/client";
import { AnswerView, Button, Dialog, Field, Wrong } from "../../parts";
import { notify } from "../../shell/notices";
import { useAnswer } from "../../state/use_answer";
import { t } from "../../words";
import type { DialogOfFiring } from "./opened";
import { useWork } from "../../state/use_work";

const NOT_ON_A_PANEL = /^(name|label|note|file|format)/;

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Label of a key in a form: "heating[2].to" is "Heating stage 2: Heat to"; a group is left out where its field says it already. */
export function labelOf(fields: readonly FormField[], key: string): string {
  const [first = "", ...rest] = key.split(".");
  const place = /^(.*)\[(\d+)\]$/.exec(first);
  const field = fields.find((one) => one.key === (place?.[1] ?? first));
  if (!field) return key;
  const words = capital(place ? `${field.one ?? field.label} ${place[2]}` : field.label);
  if (rest.length === 0) return words;
  const inner = labelOf(field.fields ?? [], rest.join("."));
  return inner.startsWith(words) ? inner : `${words}: ${inner}`;
}

/** Read back before the start: the values of the program beside what the panel shows. */
export function StartDialog({ firing, onClose, onDone }: DialogOfFiring) {
  const program = useAnswer<KeptDocument>(paths.document("program", firing.program));
  const form = useAnswer<Form>(paths.form("program"));
  const [readBack, setReadBack] = useState("");
  const { busy, wrong, run } = useWork(() => {
    notify(t("today.start.kept", { name: firing.name }));
    onDone();
  });
  const start = (event: Event) => {
    event.preventDefault();
    run(() => bench.start(firing.name, readBack.trim() ? { read_back: readBack.trim() } : {}));
  };
  return (
    <Dialog title={t("today.start.title", { name: firing.name })} onClose={onClose}>
      <p>{t("today.start.read")}</p>
      <AnswerView of={program}>
        {({ values }) => (
          <dl class="read-back" aria-label={t("today.start.program", { program: firing.program })}>
            {values
              .filter(({ key }) => !NOT_ON_A_PANEL.test(key))
              .map(({ key, text }) => (
                <div key={key}>
                  <dt>{labelOf(form.answer?.fields ?? [], key)}</dt>
                  <dd>{text}</dd>
                </div>
              ))}
          </dl>
        )}
      </AnswerView>
      <form class="form" onSubmit={start}>
        <Field label={t("today.start.read_back")} help={t("today.start.read_back_help")} value={readBack} onInput={setReadBack} />
        <p class="caution">{t("today.start.caution")}</p>
        <Wrong sentence={wrong} />
        <Button kind="primary" submit busy={busy}>
          {t("today.start.button")}
        </Button>
      </form>
    </Dialog>
  );
}
