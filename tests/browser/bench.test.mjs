// The Bench: every sum answers its example, and shows what it was got from.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { startBrowser } from './browser.mjs';
import { assertClean, openPage } from './pages.mjs';
import { serveDemo } from './server.mjs';

let browser, server;
before(async () => {
  browser = await startBrowser();
  server = await serveDemo();
});
after(async () => {
  await browser?.close();
  await server?.stop();
});

describe('each sum answers its example without a fault', () => {
  const sums = ['gravity', 'alcohol', 'mix', 'ph', 'acids', 'dose', 'blend', 'gas', 'carbonation', 'pressure', 'dissolved', 'fruit', 'colour', 'bitterness'];
  for (const sum of sums) {
    test(sum, { timeout: 60_000 }, async () => {
      const page = await openPage(browser, server, `/bench/sums/${sum}`);
      const answer = page.locator('section.answer');
      await answer.locator('h2, .verdict').first().waitFor();
      assert.equal(await answer.getByRole('alert').count(), 0);
      assertClean(page);
      await page.context().close();
    });
  }
});

// ASBC Methods of Analysis, table 1: SG 1.0484 at 20/20 C is 12.0 % of extract by mass; from memory.
test('a sum is worked out as one types, and says how', { timeout: 60_000 }, async () => {
  const page = await openPage(browser, server, '/bench/sums/gravity');
  await page.getByLabel('read at').fill('20');
  await page.getByLabel('gravity', { exact: true }).fill('1.0484');
  const answer = page.locator('section.answer');
  await answer.getByText(/^12\.0\d?$/).first().waitFor();
  await answer.getByRole('button', { name: /How each was got/ }).first().click();
  await answer.getByText(/Source:/).first().waitFor();
  assertClean(page);
  await page.context().close();
});

test('what cannot be meant is refused in place', { timeout: 60_000 }, async () => {
  const page = await openPage(browser, server, '/bench/sums/ph');
  page.watched.expected.push(/400|422/);
  await page.getByRole('button', { name: 'More figures' }).click();
  await page.getByLabel('temperature', { exact: true }).fill('45');
  const alert = page.getByRole('alert');
  await alert.waitFor();
  assert.match(await alert.innerText(), /0 to 40/);
  assertClean(page);
  await page.context().close();
});

test('long work shows how far it is, and can be stopped', { timeout: 120_000 }, async () => {
  const page = await openPage(browser, server, '/bench/found');
  await page.getByLabel('to draw in a year').fill('40');
  await page.getByLabel('mean age of what is drawn').fill('4 years');
  await page.getByRole('button', { name: 'Work it out' }).click();
  // It may be done before a finger is there; then there is nothing to stop.
  const stop = page.getByRole('button', { name: 'Stop' });
  if (await stop.isVisible().catch(() => false)) await stop.click({ timeout: 1000 }).catch(() => {});
  await page.getByRole('button', { name: 'Work it out' }).click();
  await page.getByRole('heading', { name: 'Designs' }).waitFor({ timeout: 60_000 });
  assertClean(page);
  await page.context().close();
});

test('a settled solera is as old as its turns make it', { timeout: 60_000 }, async () => {
  const page = await openPage(browser, server, '/bench/ages');
  // A third pulled every nine months: before the pull the mean age tends to interval / share = 0.75 / (1/3) = 2.25 years
  // (the mean of a geometric distribution is one over its share).
  await page.getByText(/Settled after \d+ turns/).waitFor();
  await page.getByText('settled 2.25 y').waitFor();
  assertClean(page);
  await page.context().close();
});

test('a blend is found, its glasses poured blind, and its moves looked at before they are booked', { timeout: 120_000 }, async () => {
  const page = await openPage(browser, server, '/bench/blend');
  await page.getByRole('heading', { name: /^The best/ }).waitFor();
  await page.getByLabel('how much', { exact: true }).fill('12');
  await page.getByText(/^12\.0 L of /).waitFor();
  await page.getByLabel('glasses to taste it').fill('100');
  await page.getByRole('heading', { name: /^Bench sheet/ }).waitFor();
  const codes = await page.locator('table', { hasText: 'pour' }).locator('tbody td:first-child').allInnerTexts();
  assert.ok(codes.length >= 3 && codes.every((code) => /^\d{3}$/.test(code)), codes.join());
  // What was liked proposes the next glasses; told twice, the best of all becomes litres.
  for (const [i, code] of codes.slice(0, 3).entries()) await page.getByLabel(`how ${code} was liked`).fill(['6', '7,5', '5'][i]);
  await page.getByRole('button', { name: 'They were liked so' }).click();
  await page.getByRole('heading', { name: /^The next glasses/ }).waitFor();
  await page.getByText('The best as litres').waitFor();
  await page.locator('label.which select').selectOption({ label: 'Jar 23' });
  await page.getByRole('button', { name: 'Look at the moves of the best' }).waitFor();
  await page.getByRole('button', { name: 'Look at its moves' }).click();
  await page.getByText(/^blends from .* into Jar 23/).first().waitFor();
  await page.context().close();
});

test('a blend that cannot be says which wishes contradict', { timeout: 120_000 }, async () => {
  const page = await openPage(browser, server, '/bench/blend', { size: 'phone' });
  await page.getByRole('heading', { name: /^The best/ }).waitFor();
  await page.getByLabel('to', { exact: true }).first().fill('2.9');
  await page.getByLabel('from', { exact: true }).first().fill('');
  await page.getByLabel('must').first().check();
  await page.getByText(/pH at most 2\.90 .*the nearest is/).waitFor();
  await page.context().close();
});

test('what its tasters found stands in the page of a vessel, each figure with a reason', { timeout: 120_000 }, async () => {
  const key = (n) => `019a0000-0000-7000-8000-0000000000${n}`;
  for (const [n, taster, sour] of [[51, 'Ines', '6'], [52, 'Marit', '8'], [53, 'Tobias', '7']])
    await server.book_sitting({ key: key(n), acts: [{ act: 'tasting', subject: 'The Amber', taster, scores: [`sour=${sour}`] }] });
  const panel = await server.ask('/holdings/1/panel');
  const sour = panel.now.find((f) => f.attribute === 'sourness');
  assert.equal(sour.tasters, 3);
  const page = await openPage(browser, server, '/vessel/1', { size: 'phone' });
  await page.getByRole('heading', { name: /^Tasted/ }).waitFor();
  const row = page.getByRole('button', { name: /^sourness/ });
  await row.click();
  await page.getByText(/by 3 tasters in #/).first().waitFor();
  await page.getByText('Over time, and who tasted').click();
  await page.getByText(/the others/).first().waitFor();
  await page.context().close();
});

test('a fault named on the whole sheet stands in the page of the vessel with what it asks for', { timeout: 120_000 }, async () => {
  const page = await openPage(browser, server, '/sitting/taste/1', { size: 'phone' });
  await page.getByText('The whole sheet, each word explained').click();
  await page.getByLabel('Sourness', { exact: true }).selectOption('6');
  await page.getByLabel('Mousy', { exact: true }).check();
  await page.getByText('Cracker, popcorn, mouse cage').waitFor();
  await page.getByRole('button', { name: /^Book/ }).first().click();
  await page.getByText(/^Booked/).first().waitFor();
  const panel = await server.ask('/holdings/1/panel');
  assert.deepEqual(panel.standing.map((f) => [f.id, f.answer, f.blocks_packaging]), [['mousy', 'wait', true]]);
  const vessel = await openPage(browser, server, '/vessel/1', { size: 'phone' });
  await vessel.getByText(/^Mousy: wait\./).waitFor();
  await vessel.getByText('Nothing is packaged from here meanwhile.').waitFor();
  await vessel.context().close();
  await page.context().close();
});

test('what a beer shall be like is said in a sitting, and stands beside what was found', { timeout: 120_000 }, async () => {
  const page = await openPage(browser, server, '/sitting/target/1', { size: 'phone' });
  await page.getByLabel('wanted, one a line').fill('sourness 1 to 2\nta 4 to 9');
  await page.getByLabel('in words').fill('as the first');
  await page.getByRole('button', { name: /^Book/, disabled: false }).click();
  await page.getByText(/^Booked/).first().waitFor();
  const gap = await server.ask('/holdings/1/gap');
  assert.deepEqual(gap.figures.map((f) => [f.figure, f.standing]), [['sourness', 'outside'], ['ta', 'inside']]);
  const vessel = await openPage(browser, server, '/vessel/1', { size: 'phone' });
  await vessel.getByRole('heading', { name: /^Beside its target/ }).waitFor();
  await vessel.getByText(/^sourness .*too much/).waitFor();
  await vessel.context().close();
  await page.context().close();
});

test('a quarter is planned: two products, and what fills the soleras again', { timeout: 120_000 }, async () => {
  const page = await openPage(browser, server, '/bench/quarter');
  await page.getByLabel('products, one a line').fill('Autumn, 12 L, ph 3.4 to 3.5, into Keg 2\nWinter, 8 L, ta 5 to 7');
  await page.getByLabel('refills that will be there, one a line').fill('Spring wort, 30 L');
  await page.getByRole('heading', { name: /^Autumn, 12.0 L into Keg 2/ }).waitFor();
  await page.getByRole('heading', { name: 'Filled again, in this order' }).waitFor();
  page.watched.expected.push(/409/);
  await page.getByLabel('refills that will be there, one a line').fill('Spring wort, 1 L');
  await page.getByRole('alert').getByText(/only what can be refilled|as can be replaced/).waitFor();
  assertClean(page);
  await page.context().close();
});

test('three tasters taste two beers blind on a phone, and what they found is booked to the right beer', { timeout: 180_000 }, async () => {
  const page = await openPage(browser, server, '/bench/taste', { size: 'phone' });
  await page.getByLabel('The Amber', { exact: true }).check();
  await page.getByLabel('Stair 1', { exact: true }).check();
  await page.getByLabel('pour it twice').first().check();
  await page.getByLabel('tasters').fill('Ines, Marit, Tobias');
  await page.getByRole('button', { name: 'Lay out the glasses' }).click();
  await page.getByText('0 of 3 done').waitFor();
  assert.ok(await page.getByRole('button', { name: 'Uncover' }).isDisabled());
  const orders = [];
  for (const [taster, least] of [['Ines', 4], ['Marit', 5], ['Tobias', 6]]) {
    await page.getByRole('button', { name: new RegExp(`^${taster}`) }).click();
    await page.getByText(`glass 1 of 3, ${taster}`).waitFor();
    const codes = (await page.locator('section h2').allInnerTexts()).map((text) => text.slice(0, 3));
    orders.push(codes.join());
    for (const [i, code] of codes.entries())
      for (const select of await page.locator(`select[aria-label$=" of ${code}"]:not([aria-label^="fault"])`).all()) await select.selectOption(String(least + (i % 2)));
    if (taster === 'Ines') await page.reload(); // a phone that fell asleep: nothing is lost
    await page.getByText(/of 3 done/).waitFor();
  }
  assert.equal(new Set(orders).size, 3, 'everybody has another order');
  await page.getByText('3 of 3 done').waitFor();
  await page.getByRole('button', { name: 'Uncover' }).click();
  await page.getByRole('heading', { name: /uncovered$/ }).waitFor();
  await page.getByRole('button', { name: 'Look at its 9 tastings' }).click();
  await page.getByRole('button', { name: /^Book/, disabled: false }).click();
  await page.getByText(/^Booked/).first().waitFor();
  const stair = (await server.ask('/cellar')).vessels.find((one) => one.name === 'Stair 1');
  const other = await server.ask(`/holdings/${stair.number}/panel`);
  assert.equal(other.now.find((f) => f.attribute === 'sourness').tasters, 3);
  const panel = await server.ask('/holdings/1/panel');
  assert.ok(panel.tasters.some((one) => one.repeats !== null), 'the second glass tells how well they repeat');
  await page.context().close();
});
