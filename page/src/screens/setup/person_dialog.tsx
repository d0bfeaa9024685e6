import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { paths, setup, type Person, type Role } from "../../api/client";
import { AnswerView, BigChoice, Button, Dialog, Field, Tick, Wrong } from "../../parts";
import { notify } from "../../shell/notices";
import { PasswordGate } from "../../shell/password_gate";
import { maySetUp, session } from "../../state/session";
import { useAnswer } from "../../state/use_answer";
import { useWork } from "../../state/use_work";
import { t } from "../../words";
import { LEAST_PASSWORD, roleOptions } from "./roles";

/** One person: what he may do, what he signs in by, who he is, and the erasing of that. */
export function PersonDialog({ code, onClose }: { code: string; onClose: () => void }) {
  const person = useAnswer<Person>(paths.person(code), false);
  const mine = session.value?.person === code;
  return (
    <Dialog title={code} onClose={onClose}>
      <AnswerView of={person}>
        {(answer) => (
          <>
            {maySetUp.value ? <RoleForm key={answer.version} person={answer} again={person.again} /> : null}
            {maySetUp.value || mine ? <SecretForms code={code} mine={mine} /> : null}
            {maySetUp.value || mine ? <PersonalForm key={`${answer.name} ${answer.contact}`} person={answer} again={person.again} /> : null}
            {maySetUp.value && answer.personal_data ? <ForgetForm code={code} again={person.again} /> : null}
          </>
        )}
      </AnswerView>
    </Dialog>
  );
}

interface Part {
  person: Person;
  again: () => void;
}

/** A form that asks for the password first where it must, and sends once. */
function Asking({ title, send, busy, wrong, button, children }: { title: string; send: () => void; busy: boolean; wrong: string | null; button: string; children: ComponentChildren }) {
  return (
    <PasswordGate>
      {(ask) => (
        <form
          class="form person-part"
          onSubmit={(event) => {
            event.preventDefault();
            ask(send);
          }}
        >
          <h3>{title}</h3>
          {children}
          <Wrong sentence={wrong} />
          <Button submit busy={busy}>
            {button}
          </Button>
        </form>
      )}
    </PasswordGate>
  );
}

function RoleForm({ person, again }: Part) {
  const [role, setRole] = useState<string>(person.role);
  const [setUp, setSetUp] = useState(person.may_set_up);
  const [left, setLeft] = useState(person.left);
  const [reason, setReason] = useState("");
  const { busy, wrong, run } = useWork(() => {
    notify(t("setup.persons.changed"));
    again();
  });
  const change = {
    ...(role !== person.role ? { role: role as Role } : {}),
    ...(setUp !== person.may_set_up ? { may_set_up: setUp } : {}),
    ...(left !== person.left ? { left } : {}),
  };
  return (
    <Asking title={t("setup.persons.role")} send={() => run(() => setup.changePerson(person.person, { ...change, reason: reason.trim() }))} busy={busy} wrong={wrong} button={t("setup.persons.change_role")}>
      <BigChoice label={t("setup.persons.role")} hideLabel value={role} onChoose={setRole} options={roleOptions()} />
      <Tick label={t("setup.persons.set_up")} help={t("setup.persons.set_up_help")} checked={setUp} onChange={setSetUp} />
      <Tick label={t("setup.persons.leaves")} help={t("setup.persons.leaves_help")} checked={left} onChange={setLeft} />
      <Field label={t("parts.reason")} help={t("parts.reason_help")} value={reason} onInput={setReason} required />
    </Asking>
  );
}

function SecretForms({ code, mine }: { code: string; mine: boolean }) {
  const [now, setNow] = useState("");
  const [password, setPassword] = useState("");
  const [pin, setPin] = useState("");
  const ofPassword = useWork(() => {
    notify(t("setup.persons.password_kept", { code }));
    setPassword("");
  });
  const ofPin = useWork(() => {
    notify(t("setup.persons.pin_kept", { code }));
    setPin("");
  });
  const asksNow = mine && session.value?.by !== "this machine";
  const given = asksNow ? now : "";
  return (
    <>
      <Asking
        title={t("setup.persons.secrets")}
        send={() => ofPassword.run(() => setup.keepPassword(code, { password, ...(given ? { now: given } : {}) }))}
        busy={ofPassword.busy}
        wrong={ofPassword.wrong}
        button={t("setup.persons.keep_password")}
      >
        {asksNow ? <Field label={t("setup.persons.own_password")} kind="password" value={now} onInput={setNow} autocomplete="current-password" /> : null}
        <Field label={t("setup.persons.password")} kind="password" help={t("setup.persons.password_help", { least: LEAST_PASSWORD })} value={password} onInput={setPassword} autocomplete="new-password" />
      </Asking>
      <Asking
        title={t("setup.persons.pin")}
        send={() => ofPin.run(() => setup.keepPin(code, { pin, ...(given ? { password: given } : {}) }))}
        busy={ofPin.busy}
        wrong={ofPin.wrong}
        button={t("setup.persons.keep_pin")}
      >
        <Field label={t("setup.persons.pin")} kind="pin" help={t("setup.persons.pin_help")} value={pin} onInput={setPin} autocomplete="new-password" />
      </Asking>
    </>
  );
}

function PersonalForm({ person, again }: Part) {
  const [name, setName] = useState(person.name ?? "");
  const [contact, setContact] = useState(person.contact ?? "");
  const { busy, wrong, run } = useWork(() => {
    notify(t("setup.persons.changed"));
    again();
  });
  return (
    <Asking
      title={t("setup.persons.personal")}
      send={() => run(() => setup.keepPersonal(person.person, { name: name.trim(), contact: contact.trim() }))}
      busy={busy}
      wrong={wrong}
      button={t("setup.persons.keep_personal")}
    >
      <div class="fields-row">
        <Field label={t("setup.persons.name")} help={t("setup.persons.name_help")} value={name} onInput={setName} />
        <Field label={t("setup.persons.contact")} value={contact} onInput={setContact} />
      </div>
    </Asking>
  );
}

function ForgetForm({ code, again }: { code: string; again: () => void }) {
  const [sure, setSure] = useState(false);
  const [reason, setReason] = useState("");
  const { busy, wrong, run } = useWork(() => {
    notify(t("setup.persons.forgotten", { code }));
    again();
  });
  if (!sure) {
    return (
      <section class="person-part">
        <h3>{t("setup.persons.forget")}</h3>
        <p class="field-help">{t("setup.persons.forget_help")}</p>
        <Button onPress={() => setSure(true)}>{t("setup.persons.forget")}</Button>
      </section>
    );
  }
  return (
    <Asking
      title={t("setup.persons.forget_sure", { code })}
      send={() => run(() => setup.forgetPersonal(code, reason.trim()))}
      busy={busy}
      wrong={wrong}
      button={t("setup.persons.forget_button")}
    >
      <Field label={t("parts.reason")} help={t("parts.reason_help")} value={reason} onInput={setReason} required />
    </Asking>
  );
}
