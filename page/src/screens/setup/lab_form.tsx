import { useState } from "preact/hooks";
import { Refused, setup, type Lab } from "../../api/client";
import { BigChoice, Button, Conflict, DraftBar, Field, Wrong } from "../../parts";
import { readSession } from "../../state/session";
import { draft as openDraft } from "../../state/drafts";
import { useDraft } from "../../state/use_draft";
import { useWork } from "../../state/use_work";
import { t } from "../../words";

export interface LabValues {
  name: string;
  language: string;
  units: string;
  reason: string;
}

export interface LabFormProps {
  lab: Lab;
  button: string;
  /** In the first run the reason is plain. */
  first?: boolean;
  onKept: () => void;
  again: () => void;
}

/** Name, language and units of the lab. */
export function LabForm({ lab, button, first = false, onKept, again }: LabFormProps) {
  const draft = useDraft<LabValues>("setup", "lab", lab.version ?? 0);
  const before: LabValues = { name: lab.name, language: lab.language, units: lab.units, reason: "" };
  const values = draft.values.value ?? before;
  const change = (next: Partial<LabValues>) => draft.change({ ...values, ...next });
  const [nameless, setNameless] = useState(false);
  const [conflict, setConflict] = useState<{ kind: string; name: string; from: number; newest: number } | null>(null);
  const { busy, wrong, run } = useWork(() => {
    draft.end();
    void readSession().then(onKept, onKept);
  });
  const send = () =>
    setup
      .keepLab({
        name: values.name.trim(),
        language: values.language,
        units: values.units,
        ...(lab.version ? { from: lab.version } : {}),
        reason: values.reason.trim() || (first ? t("setup.lab.first_reason") : ""),
      })
      .catch((error: unknown) => {
        if (error instanceof Refused && error.conflict) setConflict(error.conflict);
        throw error;
      });
  const submit = (event: Event) => {
    event.preventDefault();
    setNameless(values.name.trim() === "");
    if (values.name.trim() === "") return;
    if (lab.kept && changedLines(before, values).length === 0) onKept();
    else run(send);
  };
  return (
    <form class="form" onSubmit={submit}>
      <DraftBar of={draft} />
      <LabFields values={values} change={change} nameless={nameless} />
      {first ? null : <Field label={t("parts.reason")} help={t("parts.reason_help")} value={values.reason} onInput={(reason) => change({ reason })} required />}
      <Wrong sentence={wrong} />
      <Button kind="primary" submit busy={busy}>
        {button}
      </Button>
      {conflict ? (
        <Conflict
          kind="lab"
          name={lab.document ?? "lab"}
          from={conflict.from}
          newest={conflict.newest}
          mine={changedLines(before, values)}
          onKeepMine={() => {
            openDraft<LabValues>({ screen: "setup", document: "lab", version: conflict.newest }).change(values);
            draft.end();
            setConflict(null);
            again();
          }}
          onTakeTheirs={() => {
            draft.end();
            setConflict(null);
            again();
          }}
          onClose={() => setConflict(null)}
        />
      ) : null}
    </form>
  );
}

function changedLines(before: LabValues, after: LabValues): string[] {
  const labels = { name: t("setup.lab.name"), language: t("setup.lab.language"), units: t("setup.lab.units") };
  const keys = ["name", "language", "units"] as const;
  return keys.filter((key) => before[key] !== after[key]).map((key) => `${labels[key]}: ${before[key] || "–"} → ${after[key] || "–"}`);
}

function LabFields({ values, change, nameless }: { values: LabValues; change: (next: Partial<LabValues>) => void; nameless: boolean }) {
  return (
    <>
      <Field
        label={t("setup.lab.name")}
        help={t("setup.lab.name_help")}
        value={values.name}
        onInput={(name) => change({ name })}
        required
        mistake={nameless && values.name.trim() === "" ? t("setup.lab.name_missing") : undefined}
      />
      <BigChoice
        label={t("setup.lab.language")}
        value={values.language}
        onChoose={(language) => change({ language })}
        options={[
          { value: "en", label: t("setup.lab.english") },
          { value: "de", label: t("setup.lab.german") },
        ]}
      />
      <BigChoice
        label={t("setup.lab.units")}
        value={values.units}
        onChoose={(units) => change({ units })}
        options={[
          { value: "celsius", label: t("setup.lab.celsius") },
          { value: "fahrenheit", label: t("setup.lab.fahrenheit") },
        ]}
      />
    </>
  );
}
