import { paths, setup, type Lab } from "../../api/client";
import { AnswerView, Button, Notice } from "../../parts";
import { DemoButton } from "../../shell/demo_button";
import { notify } from "../../shell/notices";
import { PasswordGate } from "../../shell/password_gate";
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
      <DemoPart />
    </>
  );
}

function DemoPart() {
  const demo = session.value?.demo ?? false;
  const anew = () =>
    void setup.demoAnew().then(
      () => notify(t("setup.demo.made_anew")),
      (error: Error) => notify(error.message, "wrong"),
    );
  return (
    <section class="section">
      <h2>{t("setup.demo.title")}</h2>
      <p>{t("setup.demo.says")}</p>
      <div class="actions actions-row">
        <DemoButton label={demo ? t("setup.demo.leave") : t("setup.demo.go")} demo={!demo} />
        {demo ? (
          <PasswordGate>
            {(ask) => (
              <>
                <Button onPress={() => ask(anew)}>{t("setup.demo.anew")}</Button>
                <span class="field-help">{t("setup.demo.anew_help")}</span>
              </>
            )}
          </PasswordGate>
        ) : null}
      </div>
    </section>
  );
}
