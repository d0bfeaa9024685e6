// Chromium on the page: one context a way of looking (size, shade, language), and all that went wrong in it on record.
import { chromium } from "./packages.mjs";

export const SIZES = { desk: { width: 1366, height: 768 }, hand: { width: 390, height: 844 } };
/** A phone and a tablet held upright, with fingers and nothing else. */
export const HELD = { phone: { width: 390, height: 844 }, tablet: { width: 820, height: 1180 } };
export const SHADES = ["light", "dark"];
export const LANGUAGES = ["en", "de"];

const LOCALES = { en: "en-GB", de: "de-DE" };

export function launch() {
  // Chromium's own sandbox refuses to run as root, as which proofs in a container do; the page it opens is ours.
  return chromium.launch({ executablePath: process.env.HEATWORK_CHROMIUM || "/usr/bin/chromium", args: ["--no-sandbox", "--disable-dev-shm-usage"] });
}

/** A fresh page; `size` of SIZES or of HELD. page.wrong collects console errors, uncaught errors, refused by policy and failed requests. */
export async function open(browser, server, { size = "desk", shade = "light", language = "en" } = {}) {
  const context = await browser.newContext({
    viewport: SIZES[size] ?? HELD[size], isMobile: size in HELD, colorScheme: shade, locale: LOCALES[language], timezoneId: "Europe/Berlin", baseURL: server.address,
    hasTouch: size !== "desk", reducedMotion: "reduce",
  });
  if (server.lab === "demo") await enterDemo(context, server);
  const page = await context.newPage();
  page.setDefaultTimeout(15000);
  page.wrong = [];
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") page.wrong.push(`console ${message.type()}: ${message.text()}`);
  });
  page.on("pageerror", (error) => page.wrong.push(`uncaught: ${error.message}`));
  await page.addInitScript(() => {
    document.addEventListener("securitypolicyviolation", (event) => {
      console.error(`refused by policy: ${event.violatedDirective} ${event.blockedURI} ${event.sample}`);
    });
  });
  return page;
}

export async function enterDemo(context, server) {
  const session = await (await context.request.get("/api/session")).json();
  const answer = await context.request.put("/api/session/demo", { data: { demo: true }, headers: { "Heatwork-Token": session.token, Origin: server.address } });
  if (!answer.ok()) throw new Error(`the demo lab was not entered: ${await answer.text()}`);
}

/** Goes to a screen and waits till it has what it shows: the main part is there and says it is busy no more. */
export async function go(page, path) {
  await page.goto(path, { waitUntil: "load" });
  await settled(page);
}

export async function settled(page) {
  await page.waitForSelector("main h1");
  await page.waitForFunction(() => !document.querySelector('[aria-busy="true"], .state-loading'));
  await page.evaluate(() => new Promise((go) => requestAnimationFrame(() => requestAnimationFrame(go))));
}
