import { paths, type Lab } from "../../api/client";
import { AnswerView, Notice } from "../../parts";
import { DemoAnewButton, demoSpeaksOther } from "../../shell/demo_anew";
import { DemoButton } from "../../shell/demo_button";
import { notify } from "../../shell/notices";
import { maySetUp, session } from "../../state/session";
import { useAnswer } from "../../state/use_answer";
import { t } from "../../words";
import { LabForm } from "./lab_form";

export function LabPart() {
  const lab = useAnswer<Lab>(paths.lab());
  return (
    <>
      <h2>{t("setup.lab.title")}</h2>
      {maySetUp.value ? (
        <AnswerView of={lab}>
          {(answer) => (
            <LabForm
              key={answer.version ?? 0}
              lab={answer}
              button={t("parts.keep")}
              first={answer.version === null}
              again={lab.again}
              onKept={() => {
                notify(t("setup.lab.kept"));
                lab.again();
              }}
            />
          )}
        </AnswerView>
      ) : (
        <Notice>
          <p>{t("setup.not_allowed")}</p>
        </Notice>
      )}
      <DemoPart again={lab.again} />
    </>
  );
}

function DemoPart({ again }: { again: () => void }) {
  const demo = session.value?.demo ?? false;
  return (
    <section class="section">
      <h2>{t("setup.demo.title")}</h2>
      <p>{t("setup.demo.says")}</p>
      {demoSpeaksOther() ? <p>{t("setup.demo.other_language")}</p> : null}
      <div class="actions actions-row">
        <DemoButton label={demo ? t("setup.demo.leave") : t("setup.demo.go")} demo={!demo} />
        {demo ? <DemoAnewButton onDone={again} /> : null}
      </div>
    </section>
  );
}
