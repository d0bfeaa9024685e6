// A server for working on the page while none is built: answers in the shapes of the real one, out of the demo lab kept in a store of its own
// through the command line. For development only; never shipped. HEATWORK=path/to/heatwork PORT=8441 npm run mock
import { execFile, execFileSync } from "node:child_process";
import { createServer } from "node:http";
import { mkdtempSync, readFileSync, existsSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, normalize } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";

const heatwork = process.env["HEATWORK"] ?? fileURLToPath(new URL("../../build/release/heatwork", import.meta.url));
const port = Number(process.env["PORT"] ?? 8441);
const dist = fileURLToPath(new URL("../dist", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "heatwork-mock-"));
const store = ["--store", join(folder, "lab.sqlite")];
const run = promisify(execFile);

execFileSync(heatwork, ["demo", join(folder, "lab")]);
execFileSync(heatwork, ["store", "create", ...store]);
execFileSync(heatwork, ["store", "take-in", join(folder, "lab"), ...store]);

const session = {
  format: 1, signed_in: true, sign_in_needed: process.env["SIGN_IN"] === "yes", person: "mara", known_by: "named", by: process.env["SIGN_IN"] === "yes" ? "PIN" : "this machine",
  entered: true, role: "release", may_set_up: true, token: "mock", password_until: null,
  lab: { kept: true, name: "Mock lab", language: "en", units: "celsius", demo: false }, demo: false, version: "0.1.0",
};

async function cli(...words) {
  try {
    return JSON.parse((await run(heatwork, [...words, "--json", ...store])).stdout);
  } catch (error) {
    throw { status: /nothing|no such|unknown/i.test(error.stderr ?? "") ? 404 : 422, sentence: String(error.stderr ?? error).trim() };
  }
}

async function today() {
  const due = await cli("store", "due");
  const firings = (await cli("firing", "list")).rows.slice(0, 4).map((row, i) => ({
    name: row.name, label: row.label, state: i === 0 ? "started" : "planned", stage: "dentine", furnace: "corner", program: "dentine-on-zirconia",
    pieces: [{ piece: "crown-16", place: "middle" }], planned_for: null, started: i === 0 ? new Date(Date.now() - 17 * 60000).toISOString() : null, started_by: i === 0 ? "tom" : null,
  }));
  const cases = [{ name: "k-0417", label: "crown on the first molar", teeth: [16, 24], wanted: "2026-12-03", next_step: "dentine firing", pieces: [{ piece: "crown-16", label: "crown", kept: true, next: { firing: "firing", stage: "dentine", state: "planned", planned_for: null } }] }];
  return { format: 1, today: due.today, zone: due.zone, firings, cases, due: due.due, overdue: due.overdue };
}

const routes = [
  ["GET", /^\/health$/, () => ({ format: 1, status: "running", version: "mock", store: "reached" })],
  ["GET", /^\/api\/session$/, () => session],
  ["POST", /^\/api\/session$/, (_, body) => Object.assign(session, { person: body.person, by: body.pin ? "PIN" : "password" })],
  ["POST", /^\/api\/session\/password$/, () => Object.assign(session, { by: "password", password_until: new Date(Date.now() + 600000).toISOString() })],
  ["DELETE", /^\/api\/session$/, () => ({ format: 1 })],
  ["PUT", /^\/api\/session\/demo$/, (_, body) => Object.assign(session, { demo: body.demo })],
  ["GET", /^\/api\/today$/, today],
  ["GET", /^\/api\/documents\/([^/]+)$/, ([kind], _, asked) => cli(kind, ...(asked.get("word") ? ["find", asked.get("word")] : ["list"]))],
  ["GET", /^\/api\/documents\/([^/]+)\/([^/]+)$/, async ([kind, name], _, asked) => ({ ...(await cli(kind, "show", asked.get("version") ? `${name}@${asked.get("version")}` : name)), values: [] })],
  ["GET", /^\/api\/documents\/([^/]+)\/([^/]+)\/history$/, ([kind, name]) => cli(kind, "versions", name)],
  ["GET", /^\/api\/documents\/([^/]+)\/([^/]+)\/difference$/, ([kind, name], _, asked) => cli(kind, "difference", `${name}@${asked.get("before")}`, `${name}@${asked.get("after")}`)],
  ["GET", /^\/api\/due$/, () => cli("store", "due")],
  ["GET", /^\/api\/store$/, () => cli("store", "status")],
];

const TYPES = { html: "text/html; charset=utf-8", js: "text/javascript", css: "text/css", svg: "image/svg+xml" };
const POLICY = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; connect-src 'self'; font-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'";

/** The built page as the real server hands it out, under the same policy. */
function file(path, answer) {
  const wanted = normalize(path).replace(/^\/+/, "");
  const name = path.startsWith("/sign-in") && !wanted.includes(".") ? "sign-in/index.html" : existsSync(join(dist, wanted)) && wanted.includes(".") ? wanted : "index.html";
  answer.writeHead(200, { "Content-Type": TYPES[name.split(".").pop()] ?? "application/octet-stream", "Content-Security-Policy": POLICY });
  answer.end(readFileSync(join(dist, name)));
}

createServer(async (request, answer) => {
  const { pathname, searchParams } = new URL(request.url, "http://127.0.0.1");
  const chunks = [];
  for await (const chunk of request) chunks.push(chunk);
  const send = (status, body) => answer.writeHead(status, { "Content-Type": "application/json" }).end(JSON.stringify(body));
  const found = routes.find(([method, path]) => method === request.method && path.test(pathname));
  if (!found && !pathname.startsWith("/api/")) return file(pathname, answer);
  try {
    if (!found) throw { status: 404, sentence: `The mock knows no ${request.method} ${pathname}.` };
    const parts = found[1].exec(pathname).slice(1).map(decodeURIComponent);
    send(200, await found[2](parts, chunks.length ? JSON.parse(Buffer.concat(chunks).toString()) : {}, searchParams));
  } catch (error) {
    send(error.status ?? 500, { format: 1, error: "unknown", sentence: error.sentence ?? String(error) });
  }
}).listen(port, "127.0.0.1", () => console.log(`The mock answers at http://127.0.0.1:${port}, its store is in ${folder}.`));
