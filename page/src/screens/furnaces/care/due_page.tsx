import { useState } from "preact/hooks";
import { AnswerView, Button, ButtonLink, Empty, Heading, Table, type Column } from "../../../parts";
import { pathOf } from "../../../shell/routes";
import { may } from "../../../state/session";
import { useAnswer } from "../../../state/use_answer";
import { asTold, day, t } from "../../../words";
import { pathOfCheck } from "../check/use_check";
import { care, type DueAnswer, type DueItem, type DueOfFurnace, type DueReference, type Work } from "./answer";
import { DoneDialog } from "./done_dialog";
import { DueSheet } from "./due_items";
import { IntervalDialog } from "./interval_dialog";
import { intervalWords, whoWords, workWords } from "./words_of";

type Open = { done: string } | { interval: Work | null } | null;

/** What is due of one furnace, by whose word, done and changed. */
export function DuePage({ name }: { name: string }) {
  const asked = useAnswer<DueAnswer>(care.due(name));
  return (
    <div class="care">
      <p class="check-where"><a class="name-link" href={pathOf("furnace", name)}>{name}</a></p>
      <Heading title={t("care.due_of", { furnace: name })}>{t("care.due_title")}</Heading>
      <AnswerView of={asked}>{(answer) => <Due name={name} answer={answer} again={asked.again} />}</AnswerView>
    </div>
  );
}

function Due({ name, answer, again }: { name: string; answer: DueAnswer; again: () => void }) {
  const [open, setOpen] = useState<Open>(null);
  const furnace = answer.furnaces[0];
  if (!furnace) return null;
  const close = () => setOpen(null);
  const { version } = furnace;
  return (
    <>
      <p class="under-heading">{asTold(answer.first.sentence)}</p>
      {furnace.due.length === 0 ? <Empty title={t("care.nothing")} /> : (
        <ul class="care-list">
          {furnace.due.map((item, at) => <DueSheet key={item.work} item={item}><ToDo name={name} item={item} first={at === 0} onDone={() => setOpen({ done: item.work })} /></DueSheet>)}
        </ul>
      )}
      <HowOften furnace={furnace} onChange={(work) => setOpen({ interval: work })} />
      <References all={answer.references} />
      {open && "done" in open ? <DoneDialog furnace={name} version={version} work={open.done} today={answer.today} onDone={again} onClose={close} /> : null}
      {open && "interval" in open ? <IntervalDialog furnace={name} version={version} labVersion={answer.every_furnace.version} work={open.interval} onSet={again} onClose={close} /> : null}
    </>
  );
}

/** The first of the list is what this screen is looked at for. */
function ToDo({ name, item, first, onDone }: { name: string; item: DueItem; first: boolean; onDone: () => void }) {
  if (!may("fire")) return null;
  const kind = first ? "primary" : "plain";
  if (item.check) return <ButtonLink kind={kind} to={pathOfCheck(name, item.check, null)}>{t("care.check_now")}</ButtonLink>;
  if (item.by_hand) return <Button kind={kind} onPress={onDone}>{t("care.mark_done")}</Button>;
  return <ButtonLink kind={kind} to={`${pathOf("furnace", name)}/report`}>{t("care.to_report")}</ButtonLink>;
}

function HowOften({ furnace, onChange }: { furnace: DueOfFurnace; onChange: (work: Work | null) => void }) {
  const columns: Column<Work>[] = [
    { key: "work", head: t("care.table.work"), names: true, cell: (row) => workWords(row.work) },
    { key: "often", head: t("care.table.often"), cell: oftenWords },
    { key: "who", head: t("care.table.who"), cell: (row) => (row.set_by === null && row.called_for_by ? t("care.set_by.common_practice") : whoWords(row)) },
    { key: "last", head: t("care.table.last"), cell: (row) => (row.last ? asTold(row.last.sentence) : "–") },
    ...(may("fire") ? [{ key: "change", head: t("care.table.change"), cell: (row: Work) => <Button label={t("care.table.change_of", { work: workWords(row.work) })} onPress={() => onChange(row)}>{t("care.table.change")}</Button> }] : []),
  ];
  return (
    <section class="section" aria-labelledby="how-often">
      <h2 id="how-often">{t("care.how_often")}</h2>
      <Table caption={t("care.how_often")} quiet columns={columns} rows={furnace.works} keyOf={(row) => row.work} />
      {may("fire") ? <div class="actions screen-only"><Button onPress={() => onChange(null)}>{t("care.add_own")}</Button></div> : null}
    </section>
  );
}

function oftenWords(row: Work): string {
  const parts = [intervalWords(row), asTold(row.called_for_by?.sentence ?? "")].filter(Boolean);
  return parts.join(". ") || t("care.table.not_said");
}

/** How often it is certified anew, and whose word its day is. */
function againWords(one: DueReference): string {
  const how = intervalWords(one), who = one.set_by === "the lab" ? t("care.set_by.lab_alone") : whoWords(one);
  if (how) return t("care.again_how", { how, who });
  return one.set_by === "its certificate" ? "" : who;  // its reason says that already
}

/** Certificates of what furnaces are checked with; what is said of them stands in the reference itself. */
function References({ all }: { all: readonly DueReference[] }) {
  if (all.length === 0) return null;
  return (
    <section class="section" aria-labelledby="references">
      <h2 id="references">{t("care.references")}</h2>
      <ul class="due">
        {all.map((one) => (
          <li key={one.reference}>
            <strong>{one.overdue ? t("kept.overdue_since", { on: day(one.on) }) : day(one.on)}</strong>{" "}
            <a class="name-link" href={pathOf("reference", one.reference)}>{one.label || one.reference}</a>{": "}
            <span>{asTold(one.reason.sentence)}</span> <span class="soft">{againWords(one)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
