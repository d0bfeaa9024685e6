import { useEffect, useState } from "preact/hooks";
import { session } from "../state/session";
import { t } from "../words";
import { arrivals, asked, go, segments } from "./navigation";
import { PersonDialog } from "./person_dialog";
import { screens, type Screen } from "./routes";

export function Header() {
  return (
    <header class="header">
      <a class="header-lab" href="/today">
        <span class="header-name">{t("shell.name")}</span>
        <span class="header-of">{session.value?.lab.name || t("shell.no_lab_name")}</span>
      </a>
      <Navigation place="top" />
      <SearchForm />
      <PersonButton />
    </header>
  );
}

function ScreenLink({ screen }: { screen: Screen }) {
  const here = segments.value[0] === screen.path;
  return (
    <a class="navigation-link" href={`/${screen.path}`} aria-current={here ? "page" : undefined}>
      {t(screen.word)}
    </a>
  );
}

/** The same links stand at the top of a wide page and at the foot of a narrow one, where the thumb is. */
export function Navigation({ place }: { place: "top" | "foot" }) {
  return (
    <nav class={`navigation navigation-${place}`} aria-label={t("shell.menu")}>
      {screens
        .filter((screen) => screen.shown === "always" || (screen.shown === "menu" && place === "top"))
        .map((screen) => (
          <ScreenLink key={screen.path} screen={screen} />
        ))}
    </nav>
  );
}

function SearchForm() {
  const here = segments.value[0] === "search" ? (asked.value.get("word") ?? "") : "";
  const [word, setWord] = useState(here);
  const find = (event: Event) => {
    event.preventDefault();
    const wanted = word.trim();
    if (wanted === "") return;
    go(`/search?word=${encodeURIComponent(wanted)}`);
    setWord("");
  };
  return (
    <form class="search" role="search" onSubmit={find}>
      <label class="read-out" for="search">
        {t("shell.search.label")}
      </label>
      <input
        id="search"
        class="field-input"
        type="search"
        autocomplete="off"
        autocapitalize="none"
        spellcheck={false}
        placeholder={t("shell.search.label")}
        value={word}
        onInput={(event) => setWord(event.currentTarget.value)}
      />
      <button type="submit" class="button button-plain search-button">
        {t("shell.search.button")}
      </button>
    </form>
  );
}

function PersonButton() {
  const [open, setOpen] = useState(false);
  const now = session.value;
  const arrival = arrivals.value;
  useEffect(() => setOpen(false), [arrival]);
  return (
    <div class="person">
      <button type="button" class="button button-quiet person-button" aria-haspopup="dialog" onClick={() => setOpen(true)}>
        <span class="read-out">{t("shell.person.button")}: </span>
        <span class="person-code">{now?.person ?? t("shell.person.nobody")}</span>
      </button>
      {open ? <PersonDialog onClose={() => setOpen(false)} /> : null}
    </div>
  );
}
