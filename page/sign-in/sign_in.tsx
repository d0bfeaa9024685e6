import { useEffect, useState } from "preact/hooks";
import { Button } from "../src/parts/button";
import { BigChoice } from "../src/parts/choice";
import { Disclaimer } from "../src/parts/disclaimer";
import { Field } from "../src/parts/field";
import { Notice } from "../src/parts/notice";
import { keep, kept } from "../src/state/kept";
import { language, t, type Language } from "../src/words/catalogue";
import { goOn, signIn } from "./call";

export function SignIn({ speak }: { speak: (language: Language) => void }) {
  useEffect(() => {
    document.title = `${t("sign_in.title")} · Heatwork`;
  }, [language()]);
  return (
    <main class="sign-in" id="content">
      <p class="sign-in-name">Heatwork</p>
      <h1>{t("sign_in.title")}</h1>
      <SignInForm />
      <LanguageKeys speak={speak} />
      <Disclaimer />
    </main>
  );
}

function SignInForm() {
  const [person, setPerson] = useState(kept<string>("person") ?? "");
  const [by, setBy] = useState("password");
  const [secret, setSecret] = useState("");
  const [wrong, setWrong] = useState<string | null>(null);
  const [tried, setTried] = useState(false);
  const [busy, setBusy] = useState(false);
  const give = async (event: Event) => {
    event.preventDefault();
    setTried(true);
    const code = person.trim();
    if (busy || code === "" || secret === "") return;
    setBusy(true);
    const answer = await signIn(code, by === "pin" ? { pin: secret } : { password: secret });
    setBusy(false);
    if (answer === "") {
      keep("person", code);
      location.assign(goOn(location.search));
      return;
    }
    setWrong(answer ?? t("parts.offline"));
    setSecret("");
    setTried(false);
  };
  const byPin = by === "pin";
  useEffect(() => document.getElementById(person === "" ? "person" : "secret")?.focus(), []);
  return (
    <form class="form" onSubmit={(event) => void give(event)}>
      {wrong ? (
        <Notice kind="wrong" title={t("parts.error")}>
          <p>{wrong}</p>
        </Notice>
      ) : null}
      <Field
        id="person"
        label={t("parts.person")}
        help={t("sign_in.person_help")}
        value={person}
        onInput={setPerson}
        autocomplete="username"
        required
        mistake={tried && person.trim() === "" ? t("sign_in.missing_person") : undefined}
      />
      <BigChoice
        label={t("sign_in.lead")}
        hideLabel
        value={by}
        onChoose={setBy}
        options={[
          { value: "password", label: t("sign_in.by_password") },
          { value: "pin", label: t("sign_in.by_pin"), help: t("sign_in.pin_help") },
        ]}
      />
      <Field
        id="secret"
        label={byPin ? t("parts.pin") : t("parts.password")}
        kind={byPin ? "pin" : "password"}
        value={secret}
        onInput={setSecret}
        autocomplete={byPin ? "off" : "current-password"}
        required
        mistake={tried && secret === "" ? t("sign_in.missing_secret") : undefined}
      />
      <Button kind="primary" submit busy={busy}>
        {t("sign_in.button")}
      </Button>
    </form>
  );
}

function LanguageKeys({ speak }: { speak: (language: Language) => void }) {
  const choose = (next: Language) => {
    keep("choice", { ...(kept<Record<string, string>>("choice") ?? {}), language: next });
    speak(next);
  };
  return (
    <div class="actions actions-row" role="group" aria-label={t("sign_in.language")}>
      <Button pressed={language() === "en"} onPress={() => choose("en")}>
        <span lang="en">English</span>
      </Button>
      <Button pressed={language() === "de"} onPress={() => choose("de")}>
        <span lang="de">Deutsch</span>
      </Button>
    </div>
  );
}
