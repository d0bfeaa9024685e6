import { signal } from "@preact/signals";
import { Dialog } from "../parts";
import { t } from "../words";
import { PasswordForm } from "./password_gate";

const asking = signal<((given: boolean) => void) | null>(null);

function answer(given: boolean): void {
  const resolve = asking.peek();
  asking.value = null;
  resolve?.(given);
}

/** The server wants the password again before it keeps something: true once it was given, false where the person closed the question. */
export function askForPassword(): Promise<boolean> {
  answer(false);
  return new Promise((resolve) => (asking.value = resolve));
}

export function PasswordPrompt() {
  if (asking.value === null) return null;
  return (
    <Dialog title={t("shell.password.title")} onClose={() => answer(false)}>
      <PasswordForm onGiven={() => answer(true)} />
    </Dialog>
  );
}
