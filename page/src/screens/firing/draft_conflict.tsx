// A draft met a newer version: both shown, and the choice between them.
import type { Signal } from "@preact/signals";
import { Conflict } from "../../parts";
import type { Draft } from "../../state/drafts";
import { FIRING } from "./bench";
import { useDesk } from "./desk_context";
import type { FiringDraft, Outrun } from "./firing_draft";
import { kindAndName } from "./reading";
import { sentencesOf } from "./changes";

export function ConflictOfDraft({ behind, draft }: { behind: Signal<Outrun[]>; draft: Draft<FiringDraft> }) {
  const desk = useDesk();
  const first = behind.value[0];
  const typed = draft.values.value;
  if (!first || !typed) return null;
  const of = first.of === FIRING ? `firing ${desk.name ?? ""}` : first.of;
  const { kind, name } = kindAndName(of);
  const lay = () => {
    behind.value = [];
    void desk.restore(typed.changes);
  };
  const change = typed.changes[first.of];
  return (
    <Conflict
      kind={kind}
      name={name}
      from={first.from}
      newest={first.newest}
      mine={change ? sentencesOf(change, {}) : []}
      onKeepMine={lay}
      onTakeTheirs={() => {
        draft.end();
        behind.value = [];
      }}
      onClose={lay}
    />
  );
}
