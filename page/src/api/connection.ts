// One call over the network: headers, token, errors as they are, reads tried again, and whether the server is in reach.
import { signal } from "@preact/signals";
import { t } from "../words";
import { wantedLanguage, units } from "../words/choice";
import { Refused, Unreachable, isAborted } from "./errors";
import type { ErrorAnswer } from "./types";

export interface Asked {
  method?: "GET" | "POST" | "PUT" | "DELETE";
  body?: unknown;
  /** Sent as it is, with its own type: photos. */
  raw?: { type: string; data: Blob };
  signal?: AbortSignal;
}

/** False from the first call that got no answer until the next that got one. */
export const inReach = signal(true);
/** When the server last answered, UTC. */
export const lastHeard = signal<string | null>(null);
/** Set by the session; every write carries it. */
export const token = signal("");

const WAITS_MS = [150, 600];
let signInNeeded: () => void = () => {};

let passwordNeeded: () => Promise<boolean> = () => Promise.resolve(false);

/** `give` asks the person for the password again and tells whether it was given; then the call that was refused is sent once more. */
export function whenPasswordIsNeeded(give: () => Promise<boolean>): void {
  passwordNeeded = give;
}

/** The lab the session works in, "lab" or "demo"; set by the session, empty before there is one. */
export const lab = signal("");
let labIsOther: () => Promise<unknown> = () => Promise.resolve();

/** `read` reads the session again: an answer came from another lab than the page is in, so that the session must have ended. */
export function whenLabIsOther(read: () => Promise<unknown>): void {
  labIsOther = read;
}

/** What each answer says of the lab it is of; the session's own calls say it themselves. */
function seeLab(path: string, answer: Response): void {
  const now = answer.headers.get("Heatwork-Lab");
  if (now && lab.peek() && now !== lab.peek() && !path.startsWith("/api/session")) void labIsOther().catch(() => undefined);
}

let tokenRenewed: () => Promise<unknown> = () => Promise.resolve();

/** `renew` reads the session again: a server that began anew knows another token. A write it refused is then sent once more. */
export function whenTokenIsOld(renew: () => Promise<unknown>): void {
  tokenRenewed = renew;
}

/** True where the token a call was sent with is an old one: another is known by now, or once the session is read again. */
async function hadOldToken({ method = "GET" }: Asked, { status, word }: Refused, sentWith: string): Promise<boolean> {
  if (method === "GET" || status !== 403 || word !== "not_allowed") return false;
  if (token.peek() === sentWith) await tokenRenewed().catch(() => undefined);
  return token.peek() !== sentWith;
}

export function whenSignInIsNeeded(go: () => void): void {
  signInNeeded = go;
}

function headersOf(asked: Asked): Headers {
  const headers = new Headers({ Accept: "application/json", "Accept-Language": wantedLanguage.value, "Heatwork-Units": units.value });
  if ((asked.method ?? "GET") !== "GET") headers.set("Heatwork-Token", token.value);
  if (asked.raw) headers.set("Content-Type", asked.raw.type);
  else if (asked.body !== undefined) headers.set("Content-Type", "application/json");
  return headers;
}

async function once(path: string, asked: Asked): Promise<Response> {
  const init: RequestInit = { method: asked.method ?? "GET", headers: headersOf(asked), credentials: "same-origin", cache: "no-store", redirect: "manual" };
  if (asked.raw) init.body = asked.raw.data;
  else if (asked.body !== undefined) init.body = JSON.stringify(asked.body);
  if (asked.signal) init.signal = asked.signal;
  return fetch(path, init);
}

function waited(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}

async function reached(path: string, asked: Asked): Promise<Response> {
  const waits = (asked.method ?? "GET") === "GET" && inReach.peek() ? WAITS_MS : [];
  for (let turn = 0; ; turn += 1) {
    try {
      const answer = await once(path, asked);
      inReach.value = true;
      lastHeard.value = new Date().toISOString();
      seeLab(path, answer);
      return answer;
    } catch (error) {
      if (isAborted(error)) throw error;
      const wait = waits[turn];
      if (wait === undefined) {
        inReach.value = false;
        throw new Unreachable();
      }
      await waited(wait);
    }
  }
}

async function errorOf(answer: Response): Promise<ErrorAnswer> {
  try {
    const body = (await answer.json()) as Partial<ErrorAnswer>;
    if (typeof body.sentence === "string") return { ...body, error: body.error ?? "unknown", sentence: body.sentence };
  } catch {
    // No JSON: something between us and the server answered.
  }
  return { error: "unknown", sentence: `${answer.status} ${answer.statusText}`.trim() };
}

/** The answer of a call; throws Refused with the server's sentence, or Unreachable. */
export async function ask<T>(path: string, asked: Asked = {}, again = true): Promise<T> {
  const sentWith = token.peek(), sentIn = lab.peek();
  const answer = await reached(path, asked);
  if (answer.type === "opaqueredirect" || answer.status === 401) {
    if (path !== "/api/session") signInNeeded();
    throw new Refused(401, answer.type === "opaqueredirect" ? { error: "sign_in_needed", sentence: "" } : await errorOf(answer));
  }
  if (!answer.ok) {
    const refused = new Refused(answer.status, await errorOf(answer));
    if (again && (await hadOldToken(asked, refused, sentWith))) {
      // What was typed in one lab is never kept in another.
      if (sentIn && lab.peek() !== sentIn) throw new Refused(409, { error: "other_lab", sentence: t("shell.demo.not_kept") });
      return ask<T>(path, asked, false);
    }
    if (refused.word === "password_needed" && (await passwordNeeded())) return ask<T>(path, asked);
    throw refused;
  }
  if (answer.status === 204) return undefined as T;
  return (await answer.json()) as T;
}

/** Asks again every few seconds while the server is away, until it answers; returns the way to stop. */
export function watchConnection(every_ms = 5000): () => void {
  const timer = setInterval(() => {
    if (!inReach.value) void once("/health", {}).then(() => (inReach.value = true), () => {});
  }, every_ms);
  return () => clearInterval(timer);
}
