import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { documents, paths, Refused, Unreachable } from "./client";
import { ask, inReach, lab, lastHeard, token, whenLabIsOther, whenPasswordIsNeeded, whenSignInIsNeeded, whenTokenIsOld } from "./connection";

const fetched = vi.fn<(path: string, init: RequestInit) => Promise<Response>>();

beforeEach(() => {
  vi.stubGlobal("fetch", fetched);
  inReach.value = true;
  lastHeard.value = null;
  token.value = "a-token";
});

afterEach(() => {
  fetched.mockReset();
  vi.unstubAllGlobals();
});

function answer(status: number, body: unknown): Response {
  return new Response(JSON.stringify(body), { status, headers: { "Content-Type": "application/json" } });
}

describe("a call", () => {
  test("says language and units; a read sends no token, a write does", async () => {
    fetched.mockImplementation(async () => answer(200, {}));
    await ask("/api/today");
    await ask("/api/lab", { method: "PUT", body: { name: "x" } });
    const [read, write] = fetched.mock.calls.map(([, init]) => new Headers(init.headers));
    expect(read?.get("Accept-Language")).toBe("en");
    expect(read?.get("Heatwork-Units")).toBe("celsius");
    expect(read?.has("Heatwork-Token")).toBe(false);
    expect(write?.get("Heatwork-Token")).toBe("a-token");
    expect(write?.get("Content-Type")).toBe("application/json");
  });

  test("that is refused throws the server's sentence as it is", async () => {
    fetched.mockResolvedValue(answer(422, { format: 1, error: "bad_value", sentence: "hold: 7 xs is no duration.", mistakes: [{ of: "program", key: "hold", sentence: "…" }] }));
    const error = await ask("/api/x").catch((one: unknown) => one);
    expect(error).toBeInstanceOf(Refused);
    expect(error).toMatchObject({ status: 422, word: "bad_value", message: "hold: 7 xs is no duration." });
    expect((error as Refused).mistakes).toHaveLength(1);
    expect((error as Refused).conflict).toBeNull();
  });

  test("tells a conflict with both versions", async () => {
    fetched.mockResolvedValue(answer(409, { error: "conflict", sentence: "Newer.", kind: "program", name: "glaze", from: 1, newest: 2 }));
    const error = await documents.change("program", "glaze", { from: 1, reason: "" }).catch((one: unknown) => one);
    expect((error as Refused).conflict).toEqual({ kind: "program", name: "glaze", from: 1, newest: 2 });
  });

  test("answered by something that speaks no JSON still gives a sentence", async () => {
    fetched.mockResolvedValue(new Response("<html>", { status: 502, statusText: "Bad Gateway" }));
    await expect(ask("/api/x")).rejects.toMatchObject({ message: "502 Bad Gateway" });
  });
});

describe("a lost network", () => {
  test("is tried again for reads, and then said", async () => {
    fetched.mockRejectedValue(new TypeError("no network"));
    await expect(ask("/api/today")).rejects.toBeInstanceOf(Unreachable);
    expect(fetched).toHaveBeenCalledTimes(3);
    expect(inReach.value).toBe(false);
  });

  test("that comes back while reading is not noticed", async () => {
    fetched.mockRejectedValueOnce(new TypeError("no network")).mockResolvedValueOnce(answer(200, { ok: 1 }));
    await expect(ask("/api/today")).resolves.toEqual({ ok: 1 });
    expect(inReach.value).toBe(true);
    expect(lastHeard.value).not.toBeNull();
  });

  test("never sends a write twice", async () => {
    fetched.mockRejectedValue(new TypeError("no network"));
    await expect(ask("/api/firings/x/start", { method: "POST", body: {} })).rejects.toBeInstanceOf(Unreachable);
    expect(fetched).toHaveBeenCalledTimes(1);
  });

  test("is not what a call says that was given up", async () => {
    fetched.mockRejectedValue(new DOMException("gone on", "AbortError"));
    await expect(ask("/api/today")).rejects.toBeInstanceOf(DOMException);
    expect(inReach.value).toBe(true);
  });
});

test("a session that ended leads to the sign-in page, once for every call but the session's own", async () => {
  const go = vi.fn();
  whenSignInIsNeeded(go);
  fetched.mockImplementation(async () => answer(401, { error: "sign_in_needed", sentence: "Sign in." }));
  await ask("/api/session").catch(() => {});
  expect(go).not.toHaveBeenCalled();
  await ask("/api/today").catch(() => {});
  expect(go).toHaveBeenCalledTimes(1);
});

describe("a password that is needed again", () => {
  const needed = () => answer(403, { error: "password_needed", sentence: "Say the password again." });

  test("is asked for, and the call is sent once more with the new token", async () => {
    whenPasswordIsNeeded(async () => {
      token.value = "raised";
      return true;
    });
    fetched.mockResolvedValueOnce(needed()).mockResolvedValueOnce(answer(200, { kept: true }));
    await expect(ask("/api/lab", { method: "PUT", body: {} })).resolves.toEqual({ kept: true });
    expect(new Headers(fetched.mock.calls[1]?.[1].headers).get("Heatwork-Token")).toBe("raised");
  });

  test("and is not given leaves the sentence standing", async () => {
    whenPasswordIsNeeded(async () => false);
    fetched.mockResolvedValue(needed());
    await expect(ask("/api/lab", { method: "PUT", body: {} })).rejects.toMatchObject({ message: "Say the password again." });
    expect(fetched).toHaveBeenCalledTimes(1);
  });
});

describe("a server that began anew", () => {
  const refused = () => answer(403, { error: "not_allowed", sentence: "Not yours." });

  test("is sent a write once more with its new token", async () => {
    token.value = "old";
    whenTokenIsOld(async () => (token.value = "new"));
    fetched.mockResolvedValueOnce(refused()).mockResolvedValueOnce(answer(200, { kept: true }));
    await expect(ask("/api/lab", { method: "PUT", body: {} })).resolves.toEqual({ kept: true });
    expect(new Headers(fetched.mock.calls[1]?.[1].headers).get("Heatwork-Token")).toBe("new");
  });

  test("is sent it once more too where the new token came meanwhile", async () => {
    token.value = "old";
    whenTokenIsOld(async () => undefined);
    fetched.mockImplementationOnce(async () => {
      token.value = "new";
      return refused();
    });
    fetched.mockResolvedValueOnce(answer(200, { kept: true }));
    await expect(ask("/api/lab", { method: "PUT", body: {} })).resolves.toEqual({ kept: true });
  });

  test("and left the demo lab is sent nothing more of what was typed there", async () => {
    token.value = "old";
    lab.value = "demo";
    whenTokenIsOld(async () => {
      token.value = "new";
      lab.value = "lab";
    });
    fetched.mockResolvedValue(refused());
    await expect(ask("/api/lab", { method: "PUT", body: {} })).rejects.toMatchObject({ word: "other_lab" });
    expect(fetched).toHaveBeenCalledTimes(1);
    lab.value = "";
  });

  test("is sent it once more too where it was not known yet in which lab the page is", async () => {
    token.value = "old";
    lab.value = "";
    whenTokenIsOld(async () => {
      token.value = "new";
      lab.value = "lab";
    });
    fetched.mockResolvedValueOnce(refused()).mockResolvedValueOnce(answer(200, { kept: true }));
    await expect(ask("/api/lab", { method: "PUT", body: {} })).resolves.toEqual({ kept: true });
    lab.value = "";
  });

  test("is asked for the session again once a read is answered from another lab", async () => {
    const renewed = vi.fn(async () => undefined);
    whenLabIsOther(renewed);
    const of = (where: string) => new Response("{}", { status: 200, headers: { "Heatwork-Lab": where } });
    fetched.mockImplementation(async () => of("lab"));
    await ask("/api/today");
    expect(renewed).not.toHaveBeenCalled();
    lab.value = "lab";
    await ask("/api/today");
    expect(renewed).not.toHaveBeenCalled();
    lab.value = "demo";
    await ask("/api/session");
    expect(renewed).not.toHaveBeenCalled();
    await ask("/api/today");
    expect(renewed).toHaveBeenCalledTimes(1);
    lab.value = "";
  });

  test("whose token stands has refused the person, and is asked once", async () => {
    whenTokenIsOld(async () => undefined);
    fetched.mockResolvedValue(refused());
    await expect(ask("/api/lab", { method: "PUT", body: {} })).rejects.toMatchObject({ message: "Not yours." });
    expect(fetched).toHaveBeenCalledTimes(1);
  });
});

test("names are written into paths so that nothing in them leads elsewhere", () => {
  expect(paths.document("case", "a/../b?c", 2)).toBe("/api/documents/case/a%2F..%2Fb%3Fc?version=2");
  expect(paths.documents("program", { word: "", page: 2 })).toBe("/api/documents/program?page=2");
});
