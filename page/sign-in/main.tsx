import { render } from "preact";
import "../src/look/sign_in.css";
import { show, type Language } from "../src/words/catalogue";
import { kept } from "../src/state/kept";
import { de, en } from "../generated/sign_in";
import { SignIn } from "./sign_in";

interface Choice {
  language?: Language;
  shade?: "light" | "dark";
}

export function speak(language: Language): void {
  show(language, language === "de" ? de : en);
}

const choice = kept<Choice>("choice") ?? {};
if (choice.shade) document.documentElement.dataset["shade"] = choice.shade;
speak(choice.language ?? (navigator.languages.find((one) => /^(de|en)/.test(one))?.startsWith("de") ? "de" : "en"));
const root = document.getElementById("page");
if (root) render(<SignIn speak={speak} />, root);
