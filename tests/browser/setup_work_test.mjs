// A lab set up at the page for the first time: its name, its first person and his password, a second person, the quick change by PIN, and the
// password that is asked for again. Then the demo lab and back.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { axe } from "./harness/looks.mjs";
import { go, launch, open } from "./harness/browser.mjs";
import { Server } from "./harness/server.mjs";

let server, browser, page;

before(async () => {
  browser = await launch();
  server = await Server.start("empty");
  page = await open(browser, server, {});
});

after(async () => {
  await browser?.close();
  await server?.stop();
});

const key = (name) => page.getByRole("button", { name, exact: true });
const field = (name) => page.getByLabel(name, { exact: true });
const said = (words) => page.locator(".toast", { hasText: words }).waitFor();
const atTheBench = () => page.locator(".person-code").innerText();

async function takeOver(person, pin) {
  await page.locator(".person-button").click();
  await page.locator("dialog").getByLabel("Person").fill(person);
  await page.locator("dialog").getByLabel("PIN").fill(pin);
  await key("Take over").click();
  await said(`${person} is at the bench now.`);
}

test("the first page leads through the set-up, and a reload stays at its step", async () => {
  await go(page, "/");
  await key("Set up this lab").click();
  await key("Next").click();
  await page.getByText("Give the lab a name.").waitFor();
  await field("Name of the lab").fill("Maple lab");
  await page.reload();
  assert.equal(await field("Name of the lab").inputValue(), "Maple lab", "what was typed outlives a reload");
  await key("Next").click();
  await key("Enter a furnace later").waitFor();
  assert.equal(await page.locator(".header-of").innerText(), "Maple lab");
  await page.reload();
  await key("Enter a furnace later").click();
  assert.deepEqual(await axe(page), []);
});

test("the first person is entered; a password that is refused can be typed again, and then he signs in", async () => {
  await field("Code").fill("mara");
  await field("Password (optional)").fill("short");
  await field("PIN (optional)").fill("4791");
  await key("Enter").click();
  await page.locator(".notice-wrong", { hasText: "mara is entered, but password or PIN are not kept yet." }).waitFor();
  await field("Password (optional)").fill("maple leaf syrup");
  await key("Enter").click();
  await page.waitForURL(/\/sign-in/);
  assert.equal(await field("Person").inputValue(), "mara");
  assert.deepEqual(await axe(page), []);
  await field("Password").fill("not the password");
  await key("Sign in").click();
  await page.locator(".notice-wrong").waitFor();
  await field("Password").fill("maple leaf syrup");
  await key("Sign in").click();
  await page.waitForURL(/\/setup\/persons/);
  assert.equal(await atTheBench(), "mara");
});

test("a second person takes over by PIN, and may not set up", async () => {
  await key("Enter a person").click();
  await field("Code").fill("tom");
  await field("PIN (optional)").fill("2581");
  await field("Password (optional)").fill("twelve letters");
  assert.deepEqual(await axe(page), []);
  await key("Enter").click();
  await said("tom is entered.");
  await takeOver("tom", "2581");
  assert.equal(await atTheBench(), "tom");
  await page.getByText("Only who may set up can change this.").waitFor();
  assert.equal(await key("Enter a person").count(), 0);
});

test("who came by PIN is asked for the password before the set-up is changed", async () => {
  await takeOver("mara", "4791");
  await go(page, "/setup/lab");
  await field("Name of the lab").fill("Maple lab north");
  await field("Reason").fill("moved");
  await key("Keep").click();
  const question = page.getByRole("dialog", { name: "The password again" });
  await question.getByLabel("Password").fill("wrong");
  await key("Go on").click();
  await question.locator(".notice-wrong").waitFor();
  await question.getByLabel("Password").fill("maple leaf syrup");
  await key("Go on").click();
  await said("Kept.");
  assert.equal(await page.locator(".header-of").innerText(), "Maple lab north");
});

test("the demo lab is marked, and what is typed in the lab does not show up in it", async () => {
  await go(page, "/setup/lab");
  await field("Name of the lab").fill("only a draft");
  await key("Go into the demo lab").click();
  await page.locator(".banner-demo", { hasText: "Everything here is invented." }).waitFor();
  await go(page, "/setup/lab");
  assert.notEqual(await field("Name of the lab").inputValue(), "only a draft");
  await key("Leave the demo lab").first().click();
  await page.locator(".banner-demo").waitFor({ state: "detached" });
  await go(page, "/setup/lab");
  assert.equal(await field("Name of the lab").inputValue(), "only a draft");
  await key("Throw the draft away").click();
  assert.equal(await field("Name of the lab").inputValue(), "Maple lab north");
});

test("two who set up at once are shown both versions, and one's own can be laid over the newer one", async () => {
  await go(page, "/setup/lab");
  await field("Name of the lab").fill("Maple lab west");
  await field("Reason").fill("named after the street");
  server.heatwork("lab", "change", "lab", "--set", "units=fahrenheit", "--reason", "as the furnaces", "--as", "mara");
  await key("Keep").click();
  const conflict = page.getByRole("dialog", { name: "Somebody else kept a newer version" });
  await conflict.getByText(/fahrenheit/).first().waitFor();
  await conflict.getByText(/Maple lab west/).waitFor();
  await key("Lay my changes over the newer version").click();
  await conflict.waitFor({ state: "detached" });
  // The newer version is read first; then what was typed lies over it.
  await page.waitForFunction((name) => [...document.querySelectorAll("input")].some((input) => input.value === name), "Maple lab west");
  await key("Keep").click();
  await said("Kept.");
  await page.locator(".header-of", { hasText: "Maple lab west" }).waitFor();
});

test("language and shade are a choice of this device, at once and over a reload", async () => {
  await go(page, "/setup/device");
  await page.getByLabel("Deutsch").check();
  await page.getByRole("heading", { name: "Einrichten" }).waitFor();
  await page.getByLabel("dunkel").check();
  await page.reload();
  await page.getByRole("heading", { name: "Einrichten" }).waitFor();
  assert.equal(await page.evaluate(() => document.documentElement.dataset.shade), "dark");
  assert.equal(await page.evaluate(() => document.documentElement.lang), "de");
  await page.getByLabel("wie das Labor").first().check();
  await page.getByRole("heading", { name: "Setup" }).waitFor();
});

test("who signs out sees nothing of the lab any more", async () => {
  await page.locator(".person-button").click();
  await key("Sign out").click();
  await page.waitForURL(/\/sign-in/);
  await page.goto("/records");
  await page.waitForURL(/\/sign-in/);
  assert.deepEqual(await page.evaluate(() => Object.keys(localStorage).filter((one) => one.startsWith("heatwork:answer"))), []);
});
