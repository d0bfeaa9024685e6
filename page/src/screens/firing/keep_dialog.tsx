// Keep a planned firing with its reason; what was changed becomes a new version, or a program under a name of its own.
import { useState } from "preact/hooks";
import { ask, Refused } from "../../api/client";
import { BigChoice, Button, Conflict, Dialog, Field, Notice } from "../../parts";
import { go } from "../../shell/navigation";
import { notify } from "../../shell/notices";
import { useDraft } from "../../state/use_draft";
import { pathOf } from "../../shell/routes";
import { counted, t } from "../../words";
import { askedFiring, changedDocuments, changeOf, FIRING, namesOf, nextName, programIsChanged } from "./bench";
import { sentencesOf } from "./changes";
import { useDesk } from "./desk_context";
import type { FiringDesk } from "./desk";

interface Kept {
  firing?: string;
  name?: string;
  version?: number;
}

interface Asked {
  name: string;
  reason: string;
  /** "version": a new version of the program; "name": a program of its own. */
  program: "version" | "name";
  programName: string;
}

function bodyOf(desk: FiringDesk, asked: Asked): unknown {
  const bench = desk.bench.peek();
  const rename = programIsChanged(bench) && asked.program === "name" ? { program_name: asked.programName.trim() } : {};
  return { ...askedFiring(bench), name: asked.name.trim(), reason: asked.reason.trim(), ...rename };
}

export function KeepDialog({ onClose: close }: { onClose: () => void }) {
  const desk = useDesk();
  // A session that ends, or a reload, must not cost the reason; whoever closes the dialog is done with it.
  const typed = useDraft<Asked>("firing-keep", desk.name ?? "", 0);
  const onClose = () => {
    typed.end();
    close();
  };
  const bench = desk.bench.value;
  const names = namesOf(bench);
  const makers = isMakers(desk);
  const [asked, set] = useState<Asked>(() => typed.values.peek() ?? { name: desk.name === null ? suggestedName(desk) : isPlanned(desk) ? desk.name : nextName(desk.name), reason: "", program: makers ? "name" : "version", programName: nextName(names.program) });
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<Error | null>(null);
  const put = (change: Partial<Asked>) => {
    const next = { ...asked, ...change };
    typed.change(next);
    set(next);
  };
  const changed = changedDocuments(bench);
  const reasonMissing = changed.length > 0 && asked.reason.trim() === "";
  const keep = async () => {
    setBusy(true);
    setError(null);
    try {
      const kept = await ask<Kept>("/api/firings", { method: "POST", body: bodyOf(desk, asked) });
      notify(t("firing.keep.done", { name: kept.name ?? asked.name }));
      onClose();
      await desk.keptAs(kept.name ?? asked.name.trim());
      if (desk.name !== (kept.name ?? asked.name.trim())) go(pathOf("firing", kept.name ?? asked.name.trim()), true);
    } catch (caught) {
      setError(caught instanceof Error ? caught : new Error(String(caught)));
    } finally {
      setBusy(false);
    }
  };
  const conflict = error instanceof Refused ? error.conflict : null;
  // Under a name of one's own there is no newer version to look at: another thing goes by that name.
  const taken = conflict && (conflict.kind === "firing" ? conflict.name !== desk.name : asked.program === "name" && conflict.name === asked.programName.trim());
  if (conflict && !taken) return <KeepConflict conflict={conflict} onClose={onClose} onAgain={() => setError(null)} />;
  return (
    <Dialog title={t("firing.keep.title")} onClose={onClose}>
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          if (!busy) void keep();
        }}
      >
        <p>{t("firing.keep.says")}</p>
        <Field label={t("firing.keep.name")} value={asked.name} onInput={(name) => put({ name })} help={t("firing.keep.name_help")} required />
        <Changed documents={changed} />
        {programIsChanged(bench) ? (
          <>
            {makers ? <p>{t("firing.keep.makers", { name: names.program })}</p> : null}
            <BigChoice
              label={t("firing.keep.program", { name: names.program })}
              options={[
                { value: "version", label: t("firing.keep.new_version"), help: t("firing.keep.new_version_help") },
                { value: "name", label: t("firing.keep.new_name"), help: t("firing.keep.new_name_help") },
              ].filter(({ value }) => value === "name" || !makers)}
              value={asked.program}
              onChoose={(program) => put({ program: program === "name" ? "name" : "version" })}
            />
            {asked.program === "name" ? <Field label={t("firing.keep.program_name")} value={asked.programName} onInput={(programName) => put({ programName })} required /> : null}
          </>
        ) : null}
        <Field label={t("parts.reason")} value={asked.reason} onInput={(reason) => put({ reason })} help={t("parts.reason_help")} required={changed.length > 0} />
        {error ? (
          <Notice kind="wrong" title={t("parts.kept_nothing")}>
            <p>{taken ? t("kept.name_taken", { name: conflict.name }) : error instanceof Refused ? error.message : t("parts.offline")}</p>
          </Notice>
        ) : null}
        <Button kind="primary" submit busy={busy} disabled={reasonMissing || asked.name.trim() === ""}>
          {t("parts.keep")}
        </Button>
      </form>
    </Dialog>
  );
}

/** The maker's sheet names this program: a new version of it would be taken for the maker's own. */
function isMakers(desk: FiringDesk): boolean {
  const { program, instruction } = namesOf(desk.bench.peek());
  return instruction !== "" && desk.base.peek()[`instruction ${instruction}`]?.["program"] === program;
}

/** Only what is planned may be changed; a firing that was started stays as it was, and what is tried over it becomes another one. */
function isPlanned(desk: FiringDesk): boolean {
  return (desk.base.peek()[FIRING]?.["record.state"] ?? "planned") === "planned";
}

function suggestedName(desk: FiringDesk): string {
  const bench = desk.bench.peek();
  const stage = (bench.typed[FIRING] ?? bench.base[FIRING] ?? {})["stage"] ?? "firing";
  return [namesOf(bench).pieces[0] ?? "", stage.replace(/[^A-Za-z0-9]+/g, "-")].filter(Boolean).join("-").slice(0, 60);
}

function Changed({ documents }: { documents: readonly string[] }) {
  const desk = useDesk();
  const bench = desk.bench.value;
  if (documents.length === 0) return null;
  return (
    <section class="changed">
      <h3>{counted("firing.keep.changed", documents.length)}</h3>
      {documents.map((of) => (
        <div key={of}>
          <strong>{documentWords(of, desk.name)}</strong>
          <ul>
            {sentencesOf(changeOf(bench, of), bench.base[of] ?? {}).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </div>
      ))}
    </section>
  );
}

export function documentWords(of: string, firing: string | null): string {
  if (of === FIRING) return t("firing.keep.of_firing", { name: firing ?? "" });
  const at = of.indexOf(" ");
  const name = of.slice(at + 1);
  switch (of.slice(0, at)) {
    case "program":
      return t("firing.keep.of_program", { name });
    case "piece":
      return t("firing.keep.of_piece", { name });
    case "tray":
      return t("firing.keep.of_tray", { name });
    default:
      return t("firing.keep.of_furnace", { name });
  }
}

interface KeepConflictProps {
  conflict: { kind: string; name: string; from: number; newest: number };
  onClose: () => void;
  onAgain: () => void;
}

function KeepConflict({ conflict, onClose, onAgain }: KeepConflictProps) {
  const desk = useDesk();
  const bench = desk.bench.value;
  const { kind, name, from, newest } = conflict;
  const of = kind === "firing" ? FIRING : `${kind} ${name}`;
  return (
    <Conflict
      kind={kind as "program"}
      name={name}
      from={from}
      newest={newest}
      mine={sentencesOf(changeOf(bench, of), bench.base[of] ?? {})}
      onKeepMine={() => void desk.layOver(of).then(onAgain)}
      onTakeTheirs={() => void desk.takeNewer(of).then(onClose)}
      onClose={onClose}
    />
  );
}
