// What happens before the first screen is drawn: words, session, navigation, what keeps the page's files for a lost network.
import { effect } from "@preact/signals";
import { lastHeard, watchConnection, whenLabIsOther, whenPasswordIsNeeded, whenSignInIsNeeded, whenTokenIsOld } from "../api/connection";
import { Refused } from "../api/client";
import { readSession, session } from "../state/session";
import { keep } from "../state/kept";
import { beginWithChoice } from "../words/choice";
import { beginNavigation, go } from "./navigation";
import { askForPassword } from "./password_prompt";
import { FIRST } from "./routes";
import { listenToScanner } from "./scanner";

function toSignIn(): void {
  const back = location.pathname === "/" ? "" : `?to=${encodeURIComponent(location.pathname + location.search)}`;
  location.assign(`/sign-in${back}`);
}

async function readSessionOrSignIn(): Promise<void> {
  try {
    await readSession();
    if (session.value && !session.value.signed_in && session.value.sign_in_needed) toSignIn();
  } catch (error) {
    if (error instanceof Refused && error.status === 401) toSignIn();
    // Any other failure shows on the screens, each of which asks for itself.
  }
}

/** When the server last answered is remembered to the minute, for a reload while it is away. */
function rememberWhenHeard(): void {
  let minute = "";
  effect(() => {
    const at = lastHeard.value;
    if (at === null || at.slice(0, 16) === minute) return;
    minute = at.slice(0, 16);
    keep("heard", at);
  });
}

export async function begin(): Promise<void> {
  const words = beginWithChoice();
  whenSignInIsNeeded(toSignIn);
  whenPasswordIsNeeded(askForPassword);
  whenTokenIsOld(readSession);
  whenLabIsOther(readSession);
  await Promise.all([words, readSessionOrSignIn()]);
  beginNavigation();
  if (location.pathname === "/") go(session.value && !session.value.lab.kept && !session.value.demo ? "/setup" : `/${FIRST}`, true);
  listenToScanner((text) => go(`/search?word=${encodeURIComponent(text)}&scanned=yes`));
  watchConnection();
  rememberWhenHeard();
  if ("serviceWorker" in navigator && import.meta.env.PROD) void navigator.serviceWorker.register("/sw.js").catch(() => {});
}
