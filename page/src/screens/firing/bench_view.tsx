// One firing on the bench: its table, its picture and its findings, side by side or one at a time.
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import { signal } from "@preact/signals";
import { Failed } from "../../parts";
import { session } from "../../state/session";
import { useBackInReach } from "../../state/use_answer";
import { BenchHeading } from "./bench_heading";
import { BenchPanes } from "./bench_panes";
import { FiringDesk } from "./desk";
import { DeskContext } from "./desk_context";
import { ConflictOfDraft } from "./draft_conflict";
import { draftOf, outrun, watchTyping, type Outrun } from "./firing_draft";
import { language, units } from "../../words";
import { PrintSheet } from "./print_sheet";
import { newFiringValues } from "./new_firing";

export interface BenchViewProps {
  name: string | null;
  /** Pieces a new firing begins with. */
  begin: readonly string[] | null;
}

export function BenchView({ name, begin }: BenchViewProps) {
  const place = session.value?.demo ? "demo" : "lab";
  const desk = useMemo(() => new FiringDesk(name), [name, place]);
  const kept = useMemo(() => draftOf(name, begin ?? []), [name, place]);
  const behind = useMemo(() => signal<Outrun[]>([]), [desk]);
  const [turn, again] = useState(0);
  useEffect(() => {
    let gone = false;
    void desk.readForms();
    void desk.read().then(async () => {
      if (gone || desk.failed.peek()) return;
      const typed = kept.values.peek();
      if (typed) {
        behind.value = outrun(typed, desk.versions.peek());
        if (behind.value.length === 0) await desk.restore(typed.changes);
      } else if (name === null) desk.beginWith(await newFiringValues(begin ?? []));
    });
    return () => {
      gone = true;
    };
  }, [desk, turn]);
  useEffect(() => watchTyping(desk, kept), [desk]);
  useEffect(() => () => desk.end(), [desk]);
  useBackInReach(() => desk.askWhenBack());
  const spoken = `${language()} ${units.value}`;
  const asked = useRef(spoken);
  useEffect(() => {
    if (asked.current !== spoken) desk.speakAnew();
    asked.current = spoken;
  }, [desk, spoken]);
  const failed = desk.failed.value;
  return (
    <DeskContext.Provider value={desk}>
      <div class="bench">
        <BenchHeading draft={kept} />
        {failed ? <Failed error={failed} again={() => again((before) => before + 1)} /> : <BenchPanes />}
        {behind.value.length ? <ConflictOfDraft behind={behind} draft={kept} /> : null}
      </div>
      <PrintSheet draft={kept} />
    </DeskContext.Provider>
  );
}
