// The one call of this page; the server's sentence is shown as it is.
import { language } from "../src/words/catalogue";

export type Secret = { password: string } | { pin: string };

/** Empty where it worked; else the sentence why not, or null where no answer came. */
export async function signIn(person: string, secret: Secret): Promise<"" | string | null> {
  try {
    const answer = await fetch("/api/session", {
      method: "POST",
      headers: { "Content-Type": "application/json", Accept: "application/json", "Accept-Language": language() },
      body: JSON.stringify({ person, ...secret }),
      credentials: "same-origin",
    });
    if (answer.ok) return "";
    const body = (await answer.json().catch(() => ({}))) as { sentence?: string };
    return body.sentence ?? `${answer.status} ${answer.statusText}`;
  } catch {
    return null;
  }
}

/** Where to go on: a path of our own and nothing else. */
export function goOn(search: string): string {
  const to = new URLSearchParams(search).get("to") ?? "/";
  return /^\/(?![/\\])[^\\]*$/.test(to) && !to.startsWith("/sign-in") ? to : "/";
}
