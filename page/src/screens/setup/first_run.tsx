import { paths, Refused, type DocumentList, type Lab } from "../../api/client";
import { AnswerView, Button, Disclaimer, Heading } from "../../parts";
import { DemoButton } from "../../shell/demo_button";
import { go } from "../../shell/navigation";
import { notify } from "../../shell/notices";
import { useAnswer } from "../../state/use_answer";
import { language, t, units } from "../../words";
import { FurnaceForm } from "./furnace_form";
import { LabForm } from "./lab_form";
import { NewPersonForm } from "./new_person_form";

type Step = "welcome" | "lab" | "furnace" | "persons";
const NUMBERED: readonly Step[] = ["lab", "furnace", "persons"];

function toStep(step: Step): void {
  go(`/setup/first/${step}`);
}

/** The first time: welcome, the lab, a furnace, persons; each step can be left for later, and a reload stays where it is. */
export function FirstRun({ wanted }: { wanted: string | undefined }) {
  const step = NUMBERED.find((one) => one === wanted) ?? "welcome";
  const place = NUMBERED.indexOf(step);
  return (
    <div class="first-run">
      <Heading title={t("setup.first.title")}>{step === "welcome" ? t("setup.first.title") : t(TITLES[step])}</Heading>
      {place >= 0 ? <p class="step-of">{t("setup.first.step", { step: place + 1, steps: NUMBERED.length })}</p> : null}
      {step === "welcome" ? <Welcome begin={() => toStep("lab")} /> : null}
      {step === "lab" ? <LabStep next={() => toStep("furnace")} /> : null}
      {step === "furnace" ? <FurnaceStep next={() => toStep("persons")} /> : null}
      {step === "persons" ? <PersonsStep /> : null}
    </div>
  );
}

const TITLES = { lab: "setup.lab.title", furnace: "setup.first.furnace_title", persons: "setup.first.persons_title" } as const;

function Welcome({ begin }: { begin: () => void }) {
  return (
    <>
      <p class="lead">{t("setup.first.lead")}</p>
      <div class="two-ways">
        <section class="sheet">
          <h2>{t("setup.first.begin")}</h2>
          <p>{t("setup.first.begin_help")}</p>
          <Button kind="primary" onPress={begin}>
            {t("setup.first.begin")}
          </Button>
        </section>
        <section class="sheet">
          <h2>{t("setup.first.play")}</h2>
          <p>{t("setup.first.play_help")}</p>
          <DemoButton label={t("setup.first.play")} demo />
        </section>
      </div>
      <Disclaimer />
    </>
  );
}

/** Where no store stands yet: the first thing kept makes it. */
function nothingKept(): Lab {
  return { format: 1, kept: false, document: null, version: null, name: "", language: language(), language_from: "nothing", units: units.peek(), units_from: "nothing", demo: false };
}

function LabStep({ next }: { next: () => void }) {
  const lab = useAnswer<Lab>(paths.lab());
  if (lab.error instanceof Refused && lab.error.word === "no_store") return <LabForm lab={nothingKept()} first button={t("parts.next")} onKept={next} again={lab.again} />;
  return <AnswerView of={lab}>{(answer) => <LabForm key={answer.version ?? 0} lab={answer} first button={t("parts.next")} onKept={next} again={lab.again} />}</AnswerView>;
}

function FurnaceStep({ next }: { next: () => void }) {
  return (
    <>
      <p class="lead">{t("setup.first.furnace_lead")}</p>
      <div class="actions actions-row later">
        <Button onPress={next}>{t("setup.first.furnace_later")}</Button>
      </div>
      <FurnaceForm
        onKept={(name) => {
          notify(t("setup.first.furnace_kept", { name }));
          next();
        }}
      />
    </>
  );
}

function PersonsStep() {
  const persons = useAnswer<DocumentList>(paths.persons(), false);
  return (
    <>
      <p class="lead">{t("setup.first.persons_lead")}</p>
      <div class="actions actions-row later">
        <Button onPress={() => go("/today")}>{persons.answer && persons.answer.count > 0 ? t("setup.first.go_today") : t("setup.first.persons_later")}</Button>
      </div>
      <AnswerView of={persons}>{({ count }) => <NewPersonForm key={count} first={count === 0} onKept={persons.again} />}</AnswerView>
    </>
  );
}
