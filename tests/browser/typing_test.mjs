// From the key to the painted picture on the Firing screen of a known case, then its bands, then its stress: 200 edits of different fields in
// full counts, 40 in short runs.
import assert from "node:assert/strict";
import { test } from "node:test";
import { open } from "./harness/browser.mjs";
import { browser, server, stage } from "./harness/stage.mjs";
import { openFiring, summary, typeEdits } from "./typing.mjs";

const LONG = Boolean(process.env.HEATWORK_LONG);
const EDITS = LONG ? 200 : 40;
// What is promised holds on a machine that does nothing else; short runs share theirs with other proofs, and only see that nothing is far off.
const MOST_MS = LONG ? { first: 1000, picture: 100, bands: 400, stress: 2000 } : { first: 4000, picture: 500, bands: 2000, stress: 6000 };
const FIRING = "metal-ceramic-firing";
stage();

/** What of the edits was painted when something of a later edit stood already. */
const stale = (painted) => {
  let newest = 0;
  return [...painted].sort((a, b) => a.at - b.at).filter(({ edit }) => {
    newest = Math.max(newest, edit);
    return edit < newest;
  });
};

test(`every one of ${EDITS} edits is answered while it is typed`, async (context) => {
  const page = await open(browser, server);
  const first = await openFiring(page, FIRING);
  const again = await openFiring(page, FIRING);
  const { fields, missed, wrong, picture, bands, stress } = await typeEdits(page, EDITS);
  const took = { first: Math.round(first), again: Math.round(again), fields: fields.length, wrong, picture: summary(picture.map(({ duration }) => duration)), bands: summary(bands.map(({ duration }) => duration)), stress: summary(stress.map(({ duration }) => duration)) };
  context.diagnostic(`milliseconds: ${JSON.stringify(took)}`);
  assert.deepEqual(missed, []);
  assert.deepEqual(page.wrong, []);
  assert.ok(wrong <= EDITS / 4, `${wrong} edits made a value that cannot be, and say nothing of a picture`);
  assert.deepEqual(stale([...picture, ...bands, ...stress]), [], "an older answer was painted after a newer one");
  for (const told of stress) assert.ok(bands.some(({ edit, at }) => edit === told.edit && at <= told.at), "stress was told before the bands");
  assert.ok(stress.length >= (EDITS / 5) * 0.8, `only ${stress.length} edits had their stress told`);
  assert.ok(took.picture.p95 <= MOST_MS.picture, `95 % of the pictures stood after ${took.picture.p95} ms`);
  assert.ok(took.bands.p95 <= MOST_MS.bands, `95 % of the bands stood after ${took.bands.p95} ms`);
  assert.ok(took.stress.p95 <= MOST_MS.stress, `95 % of the stresses stood after ${took.stress.p95} ms`);
  assert.ok(again <= MOST_MS.first, `the first picture stood after ${again} ms`);
});
