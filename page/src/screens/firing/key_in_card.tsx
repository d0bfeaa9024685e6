// What to key in at the furnace, in the order of the program, large enough to read from a step away; each value ticked or typed back.
import { useState } from "preact/hooks";
import { bench as calls, Refused } from "../../api/client";
import { Button, Dialog, Notice } from "../../parts";
import { go } from "../../shell/navigation";
import { notify } from "../../shell/notices";
import { counted, t } from "../../words";
import { namesOf } from "./bench";
import { useDesk } from "./desk_context";
import { fieldName, stepName } from "./program_table";
import { stepsOf } from "./steps";
import { readsTheSame } from "./typed_units";
import type { Values } from "./values";

interface Line {
  key: string;
  step: string;
  what: string;
  value: string;
}

export function linesToKeyIn(values: Values): Line[] {
  return stepsOf(values).flatMap((step) =>
    step.fields.flatMap((field) => {
      const value = values[field.key];
      return value ? [{ key: field.key, step: stepName(step), what: fieldName(field), value }] : [];
    }),
  );
}

export function KeyInCard({ onClose }: { onClose: () => void }) {
  const desk = useDesk();
  const names = namesOf(desk.bench.value);
  const lines = linesToKeyIn(desk.values(`program ${names.program}`));
  const [read, setRead] = useState<Readonly<Record<string, boolean>>>({});
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<string | null>(null);
  const left = lines.filter(({ key }) => !read[key]).length;
  const start = async () => {
    setBusy(true);
    setError(null);
    try {
      await calls.start(desk.name ?? "", { read_back: lines.map(({ step, what, value }) => `${step}, ${what}: ${value}`).join("; ") });
      notify(t("firing.start.done"));
      onClose();
      go("/today");
    } catch (caught) {
      setError(caught instanceof Refused ? caught.message : t("parts.offline"));
    } finally {
      setBusy(false);
    }
  };
  return (
    <Dialog title={t("firing.start.title")} onClose={onClose}>
      <p>{t("firing.start.says", { furnace: desk.values(`furnace ${names.furnace}`)["label"] || names.furnace })}</p>
      <ol class="key-in">
        {lines.map((line) => (
          <KeyInLine key={line.key} line={line} read={read[line.key] ?? false} onRead={(now) => setRead((before) => ({ ...before, [line.key]: now }))} />
        ))}
      </ol>
      {error ? (
        <Notice kind="wrong" title={t("firing.start.not_started")}>
          <p>{error}</p>
        </Notice>
      ) : null}
      <div class="key-in-foot">
        <p role="status">{left === 0 ? t("firing.start.all_read") : counted("firing.start.left", left)}</p>
        <Button kind="primary" busy={busy} disabled={left > 0} onPress={() => void start()}>
          {t("firing.start.now")}
        </Button>
      </div>
    </Dialog>
  );
}

function KeyInLine({ line, read, onRead }: { line: Line; read: boolean; onRead: (read: boolean) => void }) {
  const [back, setBack] = useState("");
  const differs = back.trim() !== "" && !readsTheSame(back, line.value);
  const id = `read-${line.key.replace(/[^a-z0-9]+/gi, "-")}`;
  return (
    <li class={`key-in-line${read ? " key-in-read" : ""}`}>
      <span class="key-in-what">
        {line.step}
        <small>{line.what}</small>
      </span>
      <span class="key-in-value">{line.value}</span>
      <span class="key-in-back">
        <input
          class="field-input"
          aria-label={t("firing.start.read_back", { what: `${line.step}, ${line.what}` })}
          aria-describedby={differs ? id : undefined}
          aria-invalid={differs || undefined}
          value={back}
          autocomplete="off"
          onInput={(event) => {
            setBack(event.currentTarget.value);
            if (readsTheSame(event.currentTarget.value, line.value)) onRead(true);
            else if (read) onRead(false);
          }}
        />
        {differs ? (
          <small id={id} class="key-in-differs">
            {t("firing.start.differs", { value: line.value })}
          </small>
        ) : null}
      </span>
      <label class="tick-label">
        <input type="checkbox" checked={read} onChange={(event) => onRead(event.currentTarget.checked)} />
        <span>{t("firing.start.stands")}</span>
      </label>
    </li>
  );
}
