import { Button, Notice } from "../parts";
import { makeDemoAnew, session } from "../state/session";
import { useWork } from "../state/use_work";
import { language, t } from "../words";
import { notify } from "./notices";
import { PasswordGate } from "./password_gate";

/** The demo lab thrown away and made anew, in the language of the page. */
export function DemoAnewButton({ onDone }: { onDone?: () => void }) {
  const { busy, wrong, run } = useWork(() => {
    notify(t("setup.demo.made_anew"));
    onDone?.();
  });
  return (
    <PasswordGate>
      {(ask) => (
        <>
          <Button busy={busy} onPress={() => ask(() => run(makeDemoAnew))}>{busy ? t("shell.demo.making") : t("setup.demo.anew")}</Button>
          <span class="field-help">{t("setup.demo.anew_help")}</span>
          {wrong ? <Notice kind="wrong"><p>{wrong}</p></Notice> : null}
        </>
      )}
    </PasswordGate>
  );
}

/** Whether the demo lab speaks another language than the page: its labels and notes stay as they were made. */
export function demoSpeaksOther(): boolean {
  const now = session.value;
  return now?.demo === true && now.demo_language !== null && now.demo_language !== undefined && now.demo_language !== language();
}

/** Said where one would wonder at a demo lab of two languages, with the way out of it. */
export function DemoSpeaksOther({ onDone }: { onDone?: () => void }) {
  if (!demoSpeaksOther()) return null;
  return (
    <div class="screen-only">
      <Notice>
        <p>{t("setup.demo.other_language")}</p>
        <div class="actions actions-row">
          <DemoAnewButton {...(onDone ? { onDone } : {})} />
        </div>
      </Notice>
    </div>
  );
}
