import { useState } from "preact/hooks";
import { Button, ButtonLink, Dialog, Field, Notice } from "../parts";
import { session, signInByPin, signOut } from "../state/session";
import { t, type PlainWord } from "../words";
import type { Role, Session } from "../api/client";
import { notify } from "./notices";

const ROLE_WORDS: Record<Role, PlainWord> = { look: "shell.role.look", fire: "shell.role.fire", release: "shell.role.release" };

function may(now: Session): string {
  return [now.role ? t(ROLE_WORDS[now.role]) : "", now.may_set_up ? t("shell.role.set_up") : ""].filter(Boolean).join(", ");
}

/** Who is at the bench, and the quick change of person. */
export function PersonDialog({ onClose }: { onClose: () => void }) {
  const now = session.value;
  if (!now) return null;
  return (
    <Dialog title={t("shell.person.title")} onClose={onClose}>
      <p class="person-now">
        <strong>{t("shell.person.now", { person: now.person ?? t("shell.person.nobody") })}</strong>
        {now.by === "this machine" ? ` (${t("shell.person.this_machine")})` : null}
        <br />
        {!now.entered && now.may_set_up ? t("shell.person.roles_open") : may(now)}
      </p>
      {now.by !== "this machine" ? <ChangeByPin onClose={onClose} /> : <p>{t("shell.person.no_sign_in")}</p>}
      <div class="actions actions-row">
        <ButtonLink to="/setup">{t("shell.screen.setup")}</ButtonLink>
        {now.by !== "this machine" ? <SignInAndOut /> : null}
      </div>
    </Dialog>
  );
}

function ChangeByPin({ onClose }: { onClose: () => void }) {
  const [person, setPerson] = useState("");
  const [pin, setPin] = useState("");
  const [wrong, setWrong] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const take = async (event: Event) => {
    event.preventDefault();
    if (busy || person.trim() === "" || pin === "") return;
    setBusy(true);
    try {
      await signInByPin(person.trim(), pin);
      notify(t("shell.person.took_over", { person: session.value?.person ?? person }));
      onClose();
    } catch (error) {
      setWrong(error instanceof Error ? error.message : String(error));
      setPin("");
    }
    setBusy(false);
  };
  return (
    <form class="form" onSubmit={(event) => void take(event)}>
      <h3>{t("shell.person.change")}</h3>
      <p class="field-help">{t("shell.person.change_help")}</p>
      {wrong ? (
        <Notice kind="wrong">
          <p>{wrong}</p>
        </Notice>
      ) : null}
      <div class="fields-row">
        <Field label={t("parts.person")} value={person} onInput={setPerson} autocomplete="username" />
        <Field label={t("parts.pin")} kind="pin" value={pin} onInput={setPin} />
      </div>
      <Button kind="primary" submit busy={busy}>
        {t("shell.person.change_button")}
      </Button>
    </form>
  );
}

function SignInAndOut() {
  const out = () =>
    void signOut().then(
      () => location.assign("/sign-in"),
      (error: Error) => notify(error.message, "wrong"),
    );
  return (
    <>
      <ButtonLink to="/sign-in">{t("shell.person.sign_in")}</ButtonLink>
      <Button onPress={out}>{t("shell.person.sign_out")}</Button>
    </>
  );
}
