// What is on the bench, in words: the pieces and their next step; and what can be done with it.
import { useState } from "preact/hooks";
import { Button, draftWords, Heading } from "../../parts";
import type { Draft } from "../../state/drafts";
import { may } from "../../state/session";
import { clock, t } from "../../words";
import { changedDocuments, FIRING, isWhole, namesOf } from "./bench";
import { useDesk } from "./desk_context";
import type { FiringDraft } from "./firing_draft";
import { formField } from "../../kept/form_field";
import { KeepDialog } from "./keep_dialog";
import { KeyInCard } from "./key_in_card";
import { stateWords } from "./choose";

/** "crown-16, bridge-24-26: dentine". */
export function useTitle(): string {
  const desk = useDesk();
  const names = namesOf(desk.bench.value);
  const pieces = names.pieces.join(", ");
  const stage = desk.values(FIRING)["stage"] ?? "";
  const step = formField(desk.forms.value.firing?.fields ?? [], "stage")?.choices?.find(({ value }) => value === stage)?.label ?? stage;
  if (!pieces) return desk.name ?? t("firing.heading.new");
  return step ? `${pieces}: ${step}` : pieces;
}

export function BenchHeading({ draft }: { draft: Draft<FiringDraft> }) {
  const desk = useDesk();
  const title = useTitle();
  const state = desk.values(FIRING)["record.state"];
  const old = desk.readAt.value;
  const version = desk.versions.value[FIRING];
  const labels = namesOf(desk.bench.value)
    .pieces.map((piece) => desk.values(`piece ${piece}`)["label"] ?? "")
    .filter(Boolean)
    .join("; ");
  return (
    <header class="bench-head">
      <Heading title={title} aside={<Actions />}>
        {title.split(" ").map((word) => (
          <span key={word}>{word} </span>
        ))}
      </Heading>
      <p class="bench-under">
        {desk.name === null ? <strong>{t("firing.heading.not_kept")}</strong> : version === undefined ? null : <span>{t("firing.heading.kept_as", { name: desk.name, version })}</span>}
        {state ? <span>{stateWords(state)}</span> : null}
        {labels ? <span class="bench-labels">{labels}</span> : null}
        {old ? <span>{t("firing.heading.old")}</span> : null}
        <DraftWords draft={draft} />
      </p>
    </header>
  );
}

/** That something is typed and not kept, on the line that is there anyway: what is typed must not move the table. */
function DraftWords({ draft }: { draft: Draft<FiringDraft> }) {
  const desk = useDesk();
  const at = draft.at.value;
  if (draft.values.value === null || at === null) return null;
  const take = () => {
    const other = draft.takeOther();
    if (other) void desk.restore(other.changes);
  };
  return (
    <span class="bench-draft" role="status">
      {draftWords(draft, at, clock)}
      {draft.elsewhere.value ? (
        <Button kind="quiet" onPress={take}>
          {t("parts.draft.take_other")}
        </Button>
      ) : null}
    </span>
  );
}

function Actions() {
  const desk = useDesk();
  const [open, setOpen] = useState<"keep" | "start" | null>(null);
  const { past, future } = desk.history.value;
  const bench = desk.bench.value;
  const changed = changedDocuments(bench).length > 0 || (desk.name === null && isWhole(bench));
  const planned = (desk.values(FIRING)["record.state"] ?? "planned") === "planned";
  const standing = desk.standing.value;
  return (
    <div class="bench-actions">
      <Button kind="quiet" disabled={past.length === 0} onPress={() => desk.undo()}>
        {t("firing.action.undo")}
      </Button>
      <Button kind="quiet" disabled={future.length === 0} onPress={() => desk.redo()}>
        {t("firing.action.redo")}
      </Button>
      <Button kind="quiet" disabled={Object.keys(bench.typed).every((of) => desk.name === null && of === FIRING)} onPress={() => desk.reset()}>
        {t("firing.action.reset")}
      </Button>
      <Button kind="quiet" onPress={() => window.print()}>
        {t("parts.print")}
      </Button>
      {changed ? (
        <Button kind="primary" disabled={!may("fire") || standing === "mistakes" || standing === "nothing"} onPress={() => setOpen("keep")}>
          {t("parts.keep")}
        </Button>
      ) : planned && desk.name !== null && desk.versions.value[FIRING] !== undefined ? (
        <Button kind="primary" disabled={!may("fire")} onPress={() => setOpen("start")}>
          {t("firing.action.start")}
        </Button>
      ) : null}
      {open === "keep" ? <KeepDialog onClose={() => setOpen(null)} /> : null}
      {open === "start" ? <KeyInCard onClose={() => setOpen(null)} /> : null}
    </div>
  );
}
