// The calls of the page, typed: a name in the trade's words each.
import { ask } from "./connection";
import type { DocumentList, DocumentRow, Form, KeptDocument, Kind, Lab, Mistake, Person, Role, Session, Today } from "./types";

export { ask, inReach, lastHeard } from "./connection";
export { atItsField, Refused, Unreachable, isAborted } from "./errors";
export type * from "./types";

type Values = Readonly<Record<string, unknown>>;

function query(asked: Readonly<Record<string, string | number | undefined>>): string {
  const given = new URLSearchParams();
  for (const [key, value] of Object.entries(asked)) if (value !== undefined && value !== "") given.set(key, String(value));
  const text = given.toString();
  return text ? `?${text}` : "";
}

/** Paths of reading questions, so that a screen can ask them through `useAnswer` and have the last answer dated. */
export const paths = {
  today: () => "/api/today",
  documents: (kind: Kind, asked: { word?: string; state?: string; page?: number } = {}) => `/api/documents/${kind}${query(asked)}`,
  document: (kind: Kind, name: string, version?: number) => `/api/documents/${kind}/${encodeURIComponent(name)}${query({ version })}`,
  history: (kind: Kind, name: string) => `/api/documents/${kind}/${encodeURIComponent(name)}/history`,
  difference: (kind: Kind, name: string, before: number, after: number) => `/api/documents/${kind}/${encodeURIComponent(name)}/difference${query({ before, after })}`,
  form: (kind: Kind) => `/api/forms/${kind}`,
  due: (asked: { until?: string; within?: string; page?: number } = {}) => `/api/due${query(asked)}`,
  store: () => "/api/store",
  lab: () => "/api/lab",
  persons: () => "/api/documents/person",
  person: (code: string) => `/api/persons/${encodeURIComponent(code)}`,
};

export const session = {
  read: () => ask<Session>("/api/session"),
  byPassword: (person: string, password: string) => ask<Session>("/api/session", { method: "POST", body: { person, password } }),
  byPin: (person: string, pin: string) => ask<Session>("/api/session", { method: "POST", body: { person, pin } }),
  raise: (password: string) => ask<Session>("/api/session/password", { method: "POST", body: { password } }),
  end: () => ask<unknown>("/api/session", { method: "DELETE" }),
  demo: (demo: boolean) => ask<Session>("/api/session/demo", { method: "PUT", body: { demo } }),
};

export const documents = {
  list: <Row extends DocumentRow = DocumentRow>(kind: Kind, asked: { word?: string; state?: string; page?: number } = {}, signal?: AbortSignal) =>
    ask<DocumentList<Row>>(paths.documents(kind, asked), signal ? { signal } : {}),
  read: (kind: Kind, name: string, version?: number) => ask<KeptDocument>(paths.document(kind, name, version)),
  add: (kind: Kind, body: { name: string; set: Values; reason?: string } | { text: string; reason?: string }) =>
    ask<KeptDocument>(`/api/documents/${kind}`, { method: "POST", body }),
  change: (kind: Kind, name: string, body: { from: number; set?: Values; unset?: readonly string[]; reason: string }) =>
    ask<KeptDocument>(`/api/documents/${kind}/${encodeURIComponent(name)}`, { method: "PUT", body }),
  check: (kind: Kind, body: { name: string; set: Values; from?: number; unset?: readonly string[] } | { text: string }) => ask<{ mistakes: Mistake[] }>(`/api/documents/${kind}/check`, { method: "POST", body }),
  lock: (kind: Kind, name: string, locked: boolean, reason: string) =>
    ask<unknown>(`/api/documents/${kind}/${encodeURIComponent(name)}/lock`, { method: "PUT", body: { locked, reason } }),
  form: (kind: Kind) => ask<Form>(paths.form(kind)),
};

export const bench = {
  today: () => ask<Today>(paths.today()),
  start: (name: string, body: Values) => ask<unknown>(`/api/firings/${encodeURIComponent(name)}/start`, { method: "POST", body }),
  end: (name: string, body: Values) => ask<unknown>(`/api/firings/${encodeURIComponent(name)}/end`, { method: "POST", body }),
  interrupted: (name: string, body: Values) => ask<unknown>(`/api/firings/${encodeURIComponent(name)}/interrupted`, { method: "POST", body }),
  calledOff: (name: string, body: Values) => ask<unknown>(`/api/firings/${encodeURIComponent(name)}/called-off`, { method: "POST", body }),
};

export interface NewPerson {
  code: string;
  role: Role;
  may_set_up: boolean;
  name?: string;
  contact?: string;
  reason?: string;
}

export const setup = {
  lab: () => ask<Lab>(paths.lab()),
  keepLab: (body: { name: string; language: string; units: string; from?: number; reason: string }) => ask<Lab>(paths.lab(), { method: "PUT", body }),
  addPerson: (body: NewPerson) => ask<Person>("/api/persons", { method: "POST", body }),
  changePerson: (code: string, body: { role?: Role; may_set_up?: boolean; left?: boolean; reason: string }) => ask<Person>(paths.person(code), { method: "PUT", body }),
  keepPersonal: (code: string, body: { name: string; contact: string; reason?: string }) => ask<Person>(`${paths.person(code)}/personal`, { method: "PUT", body }),
  forgetPersonal: (code: string, reason: string) => ask<Person>(`${paths.person(code)}/personal`, { method: "DELETE", body: { reason } }),
  keepPassword: (code: string, body: { password: string; now?: string }) => ask<unknown>(`${paths.person(code)}/password`, { method: "PUT", body }),
  keepPin: (code: string, body: { pin: string; password?: string }) => ask<unknown>(`${paths.person(code)}/pin`, { method: "PUT", body }),
  makeDemo: () => ask<unknown>("/api/demo", { method: "POST", body: {} }),
  demoAnew: () => ask<unknown>("/api/demo", { method: "POST", body: { anew: true } }),
};

export const jobs = {
  begin: (work: "verify" | "back up" | "export") => ask<{ id: string }>("/api/jobs", { method: "POST", body: { work } }),
  events: (id: string) => `/api/jobs/${encodeURIComponent(id)}/events`,
  cancel: (id: string) => ask<unknown>(`/api/jobs/${encodeURIComponent(id)}`, { method: "DELETE" }),
};
