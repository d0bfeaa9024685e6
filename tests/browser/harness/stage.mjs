// What the proofs of a file play on: one Chromium and one server, begun before the first of them and ended after the last.
import { after, before } from "node:test";
import { launch } from "./browser.mjs";
import { Server } from "./server.mjs";

export let browser, server;

/** Called once by a file of proofs; `lab` as Server.start takes it, `prepare` fills it once the server stands. */
export function stage(lab = "demo", prepare = () => {}) {
  before(async () => {
    browser = await launch();
    server = await Server.start(lab);
    await prepare(server);
  });
  after(async () => {
    await browser?.close();
    await server?.stop();
  });
}
