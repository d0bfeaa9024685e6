// Who is signed in, in which lab, and what follows for language, units and drafts.
import { computed, signal } from "@preact/signals";
import { Refused, session as calls, setup, type Role, type Session } from "../api/client";
import { lab, token } from "../api/connection";
import { asLanguage, asUnits, useLabsChoice, type Choice } from "../words/choice";
import { forgetDrafts, place, typist } from "./drafts";
import { forgetAnswers } from "./answers";
import { forget, keep, kept } from "./kept";

export const session = signal<Session | null>(null);
/** True when the page runs on what this device remembers of the session, because the server is away. */
export const remembered = signal(false);

const PLACE = "session";
const ROLES: readonly Role[] = ["look", "fire", "release"];

/** Whether the person may do work of this role; as long as nobody is entered the server says that everybody may. */
export function may(role: Role): boolean {
  const now = session.value;
  if (!now || (now.sign_in_needed && !now.signed_in)) return false;
  if (now.role === null) return false;
  return ROLES.indexOf(now.role) >= ROLES.indexOf(role);
}

export const maySetUp = computed(() => session.value?.may_set_up ?? false);

/** Release and set-up ask for the password of whoever came by PIN, or whose password was given long ago. */
export function passwordAsked(): boolean {
  const now = session.peek();
  if (!now || now.by === "this machine" || now.by === null) return false;
  return !now.password_until || Date.parse(now.password_until) < Date.now();
}

/** True from when the page found itself out of the demo lab without anybody wishing so, until it is entered again or that is read. */
export const demoLost = signal(kept<boolean>("demo-lost") ?? false);
let changesLab = false;

/** Said until it is read or the demo lab is entered again, over a reload too. */
export function sayDemoLost(lost: boolean): void {
  demoLost.value = lost;
  if (lost) keep("demo-lost", true);
  else forget("demo-lost");
}

async function takeOver(next: Session): Promise<void> {
  const before = session.peek() ?? kept<Session>(PLACE);
  if (before && (before.person !== next.person || before.demo !== next.demo)) forgetAnswers();
  if (before?.demo && !next.demo && !changesLab) sayDemoLost(true);
  if (next.demo) sayDemoLost(false);
  token.value = next.token;
  place.value = lab.value = next.demo ? "demo" : "lab";
  typist.value = next.person;
  session.value = next;
  remembered.value = false;
  keep(PLACE, { ...next, token: "" } satisfies Session);
  // What a lab never said is no choice of its people.
  const choice: Choice = {};
  const language = asLanguage(next.lab.language);
  const units = asUnits(next.lab.units);
  if (language && next.lab.kept) choice.language = language;
  if (units && next.lab.kept) choice.units = units;
  await useLabsChoice(choice);
}

export async function readSession(): Promise<void> {
  try {
    await takeOver(await calls.read());
  } catch (error) {
    if (error instanceof Refused) throw error;
    const last = kept<Session>(PLACE);
    if (!last) throw error;
    remembered.value = true;
    place.value = lab.value = last.demo ? "demo" : "lab";
    typist.value = last.person;
    session.value = last;
  }
}

export async function signInByPin(person: string, pin: string): Promise<void> {
  await takeOver(await calls.byPin(person, pin));
}

export async function givePassword(password: string): Promise<void> {
  await takeOver(await calls.raise(password));
}

export async function signOut(): Promise<void> {
  await calls.end();
  forget(PLACE);
  sayDemoLost(false);
  forgetAnswers();
}

/** The demo lab as it was at the beginning, its labels and notes in the language of the page; drafts of it go with it. */
export async function makeDemoAnew(): Promise<void> {
  await setup.demoAnew();
  forgetDrafts();
  forgetAnswers();
  await readSession();
}

export async function goIntoDemo(demo: boolean): Promise<void> {
  changesLab = true;
  try {
    await takeOver(await calls.demo(demo));
  } catch (error) {
    // Nobody played in it yet: it is made first.
    if (!demo || !(error instanceof Refused) || error.word !== "no_store") throw error;
    await setup.makeDemo();
    await takeOver(await calls.demo(demo));
  } finally {
    changesLab = false;
  }
}
