import { useState } from "preact/hooks";
import { setup, type Role } from "../../api/client";
import { BigChoice, Button, Field, Notice, Tick, Wrong } from "../../parts";
import { notify } from "../../shell/notices";
import { PasswordGate } from "../../shell/password_gate";
import { keep } from "../../state/kept";
import { readSession, session } from "../../state/session";
import { useWork } from "../../state/use_work";
import { t } from "../../words";
import { LEAST_PASSWORD, roleOptions } from "./roles";

interface NewPerson {
  code: string;
  role: string;
  setUp: boolean;
  name: string;
  contact: string;
  password: string;
  pin: string;
}

const EMPTY: NewPerson = { code: "", role: "fire", setUp: false, name: "", contact: "", password: "", pin: "" };

/** Enters a person, with what he signs in by. Passwords are no draft: they leave this form for the server only. */
export function NewPersonForm({ first, onKept }: { first: boolean; onKept: () => void }) {
  const me = session.value?.person ?? "";
  const [values, setValues] = useState<NewPerson>(first ? { ...EMPTY, role: "release", setUp: true } : EMPTY);
  /** Entered already, though PIN or password were refused: they alone are sent again. */
  const [entered, setEntered] = useState<string | null>(null);
  const change = (next: Partial<NewPerson>) => setValues({ ...values, ...next });
  const code = values.code.trim();
  const { busy, wrong, run } = useWork(() => {
    notify(t("setup.persons.kept", { code }));
    if (first && values.password) {
      keep("person", code);
      location.assign("/sign-in?to=%2Fsetup%2Fpersons");
    } else void readSession().then(onKept, onKept);
  });
  const enter = async () => {
    const given = { ...(values.name.trim() ? { name: values.name.trim() } : {}), ...(values.contact.trim() ? { contact: values.contact.trim() } : {}) };
    if (entered !== code) await setup.addPerson({ code, role: values.role as Role, may_set_up: values.setUp, ...given });
    setEntered(code);
    // The PIN first: with the first password in the lab whoever goes on must have signed in.
    if (values.pin) await setup.keepPin(code, { pin: values.pin });
    if (values.password) await setup.keepPassword(code, { password: values.password });
  };
  return (
    <PasswordGate>
      {(ask) => (
        <form
          class="form"
          onSubmit={(event) => {
            event.preventDefault();
            ask(() => run(enter));
          }}
        >
          <PersonFields values={values} change={change} first={first} />
          {first && code !== "" && code !== me ? <p class="field-help">{t("setup.persons.not_you", { person: me, code })}</p> : null}
          {entered === code && wrong ? (
            <Notice kind="wrong" title={t("setup.persons.but_entered", { code })}>
              <p>{wrong}</p>
            </Notice>
          ) : (
            <Wrong sentence={wrong} />
          )}
          <Button kind="primary" submit busy={busy} disabled={code === ""}>
            {t("setup.persons.keep")}
          </Button>
        </form>
      )}
    </PasswordGate>
  );
}

function PersonFields({ values, change, first }: { values: NewPerson; change: (next: Partial<NewPerson>) => void; first: boolean }) {
  return (
    <>
      <Field label={t("setup.persons.code")} help={t("setup.persons.code_help")} value={values.code} onInput={(code) => change({ code })} required />
      <BigChoice label={t("setup.persons.role")} value={values.role} onChoose={(role) => change({ role })} options={roleOptions()} />
      {first ? (
        <p class="field-help">{t("setup.persons.first_must")}</p>
      ) : (
        <Tick label={t("setup.persons.set_up")} help={t("setup.persons.set_up_help")} checked={values.setUp} onChange={(setUp) => change({ setUp })} />
      )}
      <div class="fields-row">
        <Field label={`${t("setup.persons.name")} (${t("parts.optional")})`} help={t("setup.persons.name_help")} value={values.name} onInput={(name) => change({ name })} />
        <Field label={`${t("setup.persons.contact")} (${t("parts.optional")})`} value={values.contact} onInput={(contact) => change({ contact })} />
      </div>
      <div class="fields-row">
        <Field
          label={`${t("setup.persons.password")} (${t("parts.optional")})`}
          kind="password"
          help={t("setup.persons.password_help", { least: LEAST_PASSWORD })}
          value={values.password}
          onInput={(password) => change({ password })}
          autocomplete="new-password"
        />
        <Field label={`${t("setup.persons.pin")} (${t("parts.optional")})`} kind="pin" help={t("setup.persons.pin_help")} value={values.pin} onInput={(pin) => change({ pin })} autocomplete="new-password" />
      </div>
    </>
  );
}
