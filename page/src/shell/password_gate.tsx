import { useState } from "preact/hooks";
import type { ComponentChildren } from "preact";
import { Button, Dialog, Field, Notice } from "../parts";
import { givePassword, passwordAsked, session } from "../state/session";
import { t } from "../words";

export interface PasswordGateProps {
  /** Draws what starts the work that needs the password; `ask` runs it at once, or after the password was given. */
  children: (ask: (work: () => void) => void) => ComponentChildren;
}

/** To release or to set up: asks whoever came by PIN for the password first. */
export function PasswordGate({ children }: PasswordGateProps) {
  const [work, setWork] = useState<(() => void) | null>(null);
  const ask = (next: () => void) => (passwordAsked() ? setWork(() => next) : next());
  return (
    <>
      {children(ask)}
      {work ? (
        <Dialog title={t("shell.password.title")} onClose={() => setWork(null)}>
          <PasswordForm
            onGiven={() => {
              setWork(null);
              work();
            }}
          />
        </Dialog>
      ) : null}
    </>
  );
}

export function PasswordForm({ onGiven }: { onGiven: () => void }) {
  const [password, setPassword] = useState("");
  const [wrong, setWrong] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const give = async (event: Event) => {
    event.preventDefault();
    if (busy || password === "") return;
    setBusy(true);
    try {
      await givePassword(password);
      onGiven();
    } catch (error) {
      setWrong(error instanceof Error ? error.message : String(error));
      setPassword("");
    }
    setBusy(false);
  };
  return (
    <form class="form" onSubmit={(event) => void give(event)}>
      <p>{t("shell.password.says", { person: session.value?.person ?? "" })}</p>
      {wrong ? (
        <Notice kind="wrong">
          <p>{wrong}</p>
        </Notice>
      ) : null}
      <Field label={t("parts.password")} kind="password" value={password} onInput={setPassword} autocomplete="current-password" />
      <Button kind="primary" submit busy={busy}>
        {t("shell.password.button")}
      </Button>
    </form>
  );
}
