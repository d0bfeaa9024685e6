// Edits typed one by one on the Firing screen, and how long each took from the key to the painted picture, as the page's own marks say.

const KEY_TO_PICTURE = "firing: key to picture";
const KEY_TO_BANDS = "firing: key to bands";
const KEY_TO_STRESS = "firing: key to stress";
const FIRST_PICTURE = "firing: first picture";
const DIGIT_LASTS_MS = 8000;

/** Opens a firing and waits for its first picture; how long that took since the page was asked for. [ms] */
export async function openFiring(page, name) {
  await page.goto(`/firing/${name}`);
  await page.waitForFunction((mark) => performance.getEntriesByName(mark).length > 0, FIRST_PICTURE);
  await page.waitForSelector(".firing-picture");
  return page.evaluate((mark) => performance.getEntriesByName(mark)[0].duration, FIRST_PICTURE);
}

/** The fields of the program that hold a number, by id; but for the end of the vacuum, which lies so near the top that a digit is one too many. */
export function fieldsOf(page) {
  return page.$$eval(".program .value-input", (all) => all.filter(({ id, value }) => /\d/.test(value) && !id.endsWith("vacuum-to")).map(({ id }) => id));
}

/** Marks the last digit of a field's first number, and says what it is and which digit to type in its place; never one that makes the value zero. */
function markDigit(page, id, turn = 0) {
  return page.evaluate(
    ([field, step]) => {
      const input = document.getElementById(field);
      input.focus();
      const at = /^\d+/.exec(input.value)[0].length - 1;
      input.setSelectionRange(at, at + 1);
      const next = (Number(input.value[at]) + 1 + (step % 3)) % 10;
      return { is: input.value[at], next: String(at === 0 && next === 0 ? 1 : next) };
    },
    [id, turn],
  );
}

const painted = (page, mark) => page.evaluate((name) => performance.getEntriesByName(name).map(({ startTime, duration, detail }) => ({ duration, at: startTime + duration, edit: detail.edit })), mark);

async function wholeOf(page) {
  await page.waitForSelector(".standing-whole, .standing-wrong", { timeout: DIGIT_LASTS_MS }).catch(() => {});
}

/** Types `count` single digits into field after field, each after the picture of the one before and a pause that differs from edit to edit. */
export async function typeEdits(page, count) {
  const fields = await fieldsOf(page);
  const missed = [];
  let wrong = 0;
  for (let i = 0; i < count; ++i) {
    const before = (await painted(page, KEY_TO_PICTURE)).length;
    const field = fields[i % fields.length];
    const digit = await markDigit(page, field, i);
    await page.keyboard.press(digit.next);
    try {
      await page.waitForFunction(([mark, seen]) => performance.getEntriesByName(mark).length > seen, [KEY_TO_PICTURE, before], { timeout: DIGIT_LASTS_MS });
    } catch {
      missed.push(`${i}: ${field}`);
    }
    // A value that cannot be is typed back, or every later answer would say the same of it.
    if (await page.$(".standing-wrong")) {
      wrong += 1;
      await markDigit(page, field);
      await page.keyboard.press(digit.is);
      await page.waitForSelector(".standing-wrong", { state: "detached", timeout: DIGIT_LASTS_MS });
    }
    // Every fifth edit is left alone till its bands and its stress stand; the others are typed over before, as hands do.
    if (i % 5 === 4) await wholeOf(page);
    else await page.waitForTimeout(20 + ((i * 37) % 160));
  }
  return { fields, missed, wrong, picture: await painted(page, KEY_TO_PICTURE), bands: await painted(page, KEY_TO_BANDS), stress: await painted(page, KEY_TO_STRESS) };
}

/** A share of sorted durations, by the nearest rank. */
export function percentile(durations, share) {
  const sorted = [...durations].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)];
}

export function summary(durations) {
  const of = (share) => Math.round(percentile(durations, share));
  return { count: durations.length, median: of(0.5), p95: of(0.95), p99: of(0.99), longest: of(1) };
}
