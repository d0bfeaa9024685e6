import { useState } from "preact/hooks";
import { paths, type Today as TodayAnswer } from "../../api/client";
import { AnswerView, ButtonLink, Disclaimer, Empty, Heading } from "../../parts";
import { DemoSpeaksOther } from "../../shell/demo_anew";
import { DemoButton } from "../../shell/demo_button";
import { session } from "../../state/session";
import { useAnswer } from "../../state/use_answer";
import { day, t } from "../../words";
import { Cases } from "./cases";
import { DueList } from "./due";
import { EndDialog } from "./end_dialog";
import { InFurnace, Planned } from "./firings";
import { CallOffDialog, InterruptDialog } from "./why_dialogs";
import { StartDialog } from "./start_dialog";
import { WaitingDrafts } from "./waiting_drafts";
import type { Opened } from "./opened";

/** What is on, planned, next and due; whatever is done from here is done in a dialog and asks no more than it must. */
export default function Today() {
  const answered = useAnswer<TodayAnswer>(paths.today());
  const [opened, setOpened] = useState<Opened | null>(null);
  const close = () => setOpened(null);
  const done = () => {
    close();
    answered.again();
  };
  return (
    <>
      <Heading aside={answered.answer ? day(answered.answer.today) : null} title={t("today.title")}>
        {t("today.title")}
      </Heading>
      <DemoSpeaksOther onDone={answered.again} />
      <AnswerView of={answered}>{(answer) => <Boards answer={answer} open={setOpened} again={answered.again} />}</AnswerView>
      <WaitingDrafts />
      <Disclaimer />
      {opened?.work === "start" ? <StartDialog firing={opened.firing} onClose={close} onDone={done} /> : null}
      {opened?.work === "end" ? <EndDialog firing={opened.firing} onClose={close} onDone={done} /> : null}
      {opened?.work === "interrupt" ? <InterruptDialog firing={opened.firing} onClose={close} onDone={done} /> : null}
      {opened?.work === "call off" ? <CallOffDialog firing={opened.firing} onClose={close} onDone={done} /> : null}
    </>
  );
}

function Boards({ answer, open, again }: { answer: TodayAnswer; open: (work: Opened) => void; again: () => void }) {
  const { firings, cases, due } = answer;
  if (firings.length + cases.length + due.length === 0) return <NothingOn />;
  const inFurnace = firings.filter(({ state }) => state === "started" || state === "interrupted");
  const planned = firings.filter(({ state }) => state === "planned");
  return (
    <div class="boards">
      <div class="boards-main">
        {inFurnace.length ? <InFurnace firings={inFurnace} zone={answer.zone} today={answer.today} open={open} /> : null}
        <Cases cases={cases} zone={answer.zone} today={answer.today} again={again} />
      </div>
      <div class="boards-side">
        <Planned firings={planned} zone={answer.zone} open={open} leads={inFurnace.length === 0} />
        <DueList due={due} overdue={answer.overdue} />
      </div>
    </div>
  );
}

function NothingOn() {
  return (
    <Empty title={t("today.nothing")}>
      <p>{t("today.nothing_help")}</p>
      <div class="actions actions-row">
        <ButtonLink to="/firing" kind="primary">
          {t("today.plan")}
        </ButtonLink>
        {session.value?.demo ? null : <DemoButton label={t("today.play")} demo />}
      </div>
    </Empty>
  );
}
