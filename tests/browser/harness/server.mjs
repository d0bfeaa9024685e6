// A real server of the built binary on a free port, over a store of its own: empty, or the demo lab with something of every kind in it.
import { spawn, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { ROOT } from "./packages.mjs";

export const BINARY = process.env.HEATWORK_BINARY || join(ROOT, "build/release/heatwork");

function freePort() {
  return new Promise((give, refuse) => {
    const probe = createServer();
    probe.once("error", refuse);
    probe.listen(0, "127.0.0.1", () => {
      const { port } = probe.address();
      probe.close(() => give(port));
    });
  });
}

const pause = (milliseconds) => new Promise((go) => setTimeout(go, milliseconds));

async function waitFor(address, process_) {
  for (let tries = 0; tries < 200; ++tries) {
    if (process_.exitCode !== null) throw new Error(`heatwork serve ended with ${process_.exitCode}: ${process_.said}`);
    try {
      if ((await fetch(`${address}/health`)).ok) return;
    } catch {
      // Not listening yet.
    }
    await pause(50);
  }
  throw new Error(`heatwork serve did not answer on ${address}: ${process_.said}`);
}

/** One server: address, folder, heatwork(...words) over its store, stop(), start() again on the same port. */
export class Server {
  static async start(lab = "empty") {
    const server = new Server();
    server.folder = mkdtempSync(join(tmpdir(), "heatwork-browser-"));
    server.environment = {
      ...process.env,
      HOME: server.folder,
      HEATWORK_STORE: join(server.folder, "lab.sqlite"),
      XDG_DATA_HOME: join(server.folder, "data"),
      XDG_CONFIG_HOME: join(server.folder, "config"),
      LC_ALL: "C.UTF-8",
      TZ: "Europe/Berlin",
    };
    server.port = await freePort();
    server.address = `http://127.0.0.1:${server.port}`;
    await server.start();
    server.lab = lab;
    return server;
  }

  async start() {
    this.process = spawn(BINARY, ["serve", "--port", String(this.port)], { cwd: this.folder, env: this.environment, stdio: ["ignore", "pipe", "pipe"] });
    this.process.said = "";
    for (const stream of [this.process.stdout, this.process.stderr]) stream.on("data", (words) => (this.process.said += words));
    await waitFor(this.address, this.process);
  }

  heatwork(...words) {
    return this.heatworkTold("", ...words);
  }

  /** The same, with a line of standard input. */
  heatworkTold(input, ...words) {
    const done = spawnSync(BINARY, words, { cwd: this.folder, env: this.environment, encoding: "utf8", input });
    if (done.status !== 0) throw new Error(`heatwork ${words.join(" ")}: ${done.stderr}`);
    return done.stdout;
  }

  /** A request as the page sends it, in a session of its own. */
  async ask(method, path, body) {
    const headers = { "Accept-Language": "en" };
    if (this.cookie) headers.Cookie = this.cookie;
    if (method !== "GET") {
      const session = await fetch(`${this.address}/api/session`, { headers });
      this.cookie = session.headers.getSetCookie().map((each) => each.split(";")[0]).join("; ") || this.cookie;
      headers["Heatwork-Token"] = (await session.json()).token;
      if (this.cookie) headers.Cookie = this.cookie;
      headers["Content-Type"] = "application/json";
    }
    const answer = await fetch(this.address + path, { method, headers, body: body === undefined ? undefined : JSON.stringify(body) });
    const value = await answer.json();
    if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${value.sentence}`);
    return value;
  }

  async halt() {
    const { process } = this;  // another one may run by the time this one is killed
    if (process.exitCode !== null) return;
    const ended = new Promise((go) => process.once("exit", go));
    process.kill("SIGTERM");
    await Promise.race([ended, pause(5000).then(() => process.kill("SIGKILL"))]);
    await ended;
  }

  async stop() {
    await this.halt();
    rmSync(this.folder, { recursive: true, force: true });
  }
}
