import { useState } from "preact/hooks";
import { bench } from "../../api/client";
import { BigChoice, Button, Dialog, Field, Wrong } from "../../parts";
import { notify } from "../../shell/notices";
import { t, type PlainWord } from "../../words";
import type { DialogOfFiring } from "./opened";
import { useWork } from "../../state/use_work";

interface Why {
  title: string;
  question: string;
  answers: readonly PlainWord[];
  other: string;
  keep: string;
  onClose: () => void;
  onKept: () => void;
  send: (words: string) => Promise<unknown>;
}

/** One question with the usual answers as big keys and room for one's own words. */
function WhyDialog({ title, question, answers, other, keep, onClose, onKept, send }: Why) {
  const [chosen, setChosen] = useState("");
  const [words, setWords] = useState("");
  const { busy, wrong, run } = useWork(onKept);
  const said = chosen === "other" ? words.trim() : [chosen, words.trim()].filter(Boolean).join(": ");
  const submit = (event: Event) => {
    event.preventDefault();
    if (said !== "") run(() => send(said));
  };
  return (
    <Dialog title={title} onClose={onClose}>
      <form class="form" onSubmit={submit}>
        <BigChoice
          label={question}
          value={chosen}
          onChoose={setChosen}
          options={[...answers.map((word) => ({ value: t(word), label: t(word) })), { value: "other", label: other }]}
        />
        {chosen ? <Field label={`${t("today.interrupt.words")}${chosen === "other" ? "" : ` (${t("parts.optional")})`}`} value={words} onInput={setWords} lines={2} required={chosen === "other"} /> : null}
        <Wrong sentence={wrong} />
        <Button kind="primary" submit busy={busy} disabled={said === ""}>
          {keep}
        </Button>
      </form>
    </Dialog>
  );
}

export function InterruptDialog({ firing, onClose, onDone }: DialogOfFiring) {
  return (
    <WhyDialog
      title={t("today.interrupt.title", { name: firing.label || firing.name })}
      question={t("today.interrupt.what")}
      answers={["today.interrupt.mains", "today.interrupt.by_hand", "today.interrupt.furnace"]}
      other={t("today.interrupt.other")}
      keep={t("today.interrupt.keep")}
      onClose={onClose}
      onKept={() => {
        notify(t("today.interrupt.kept", { name: firing.name }));
        onDone();
      }}
      send={(what) => bench.interrupted(firing.name, { what })}
    />
  );
}

export function CallOffDialog({ firing, onClose, onDone }: DialogOfFiring) {
  return (
    <WhyDialog
      title={t("today.call_off.title", { name: firing.label || firing.name })}
      question={t("today.call_off.why")}
      answers={["today.call_off.not_needed", "today.call_off.another", "today.call_off.not_ready"]}
      other={t("today.call_off.other")}
      keep={t("today.call_off.keep")}
      onClose={onClose}
      onKept={() => {
        notify(t("today.call_off.kept", { name: firing.name }));
        onDone();
      }}
      send={(reason) => bench.calledOff(firing.name, { reason })}
    />
  );
}
