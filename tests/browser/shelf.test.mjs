// The Shelf on the demo cellar: what is in a bottle, whether it is safe, what leaves it, and its label.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
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

const run = async (code) => (await server.ask('/cellar')).runs.find((r) => r.run === code);

test('a run is found by the code on its label and says what is in it', { timeout: 120_000 }, async () => {
  const page = await openPage(browser, server, '/shelf');
  await page.getByLabel('code on a label', { exact: true }).fill('amb 2 plum');
  await page.getByRole('button', { name: 'Look up' }).click();
  await page.getByRole('heading', { level: 2, name: /^AMB-2-PLUM/ }).waitFor();
  const holding = await server.ask(`/holdings/${(await run('AMB-2-PLUM')).number}`);
  const age = page.locator('.figure', { hasText: 'mean age' }).first();
  await age.waitFor();
  assert.match(await age.innerText(), new RegExp(holding.age_from_brew_day.mean_years.toFixed(1)));
  await page.getByText('Plum wine yeast').first().waitFor();
  await page.getByLabel('code on a label', { exact: true }).fill('zz-9');
  await page.getByRole('button', { name: 'Look up' }).click();
  await page.getByText('No run has this code.').waitFor();
  assertClean(page);
  await page.context().close();
});

test('a run in doubt says so before anything else, and a warmer store makes more pressure', { timeout: 120_000 }, async () => {
  const number = (await run('AMB-3')).number;
  const page = await openPage(browser, server, `/shelf/${number}`);
  await page.getByText('Caution: do not touch them warm.').waitFor();
  const verdict = page.locator('.verdict').first();
  await verdict.waitFor();
  const before_it = await verdict.innerText();
  await page.getByLabel('warmest store').fill('35');
  await page.waitForFunction((was) => document.querySelector('.verdict')?.textContent?.trim() !== was.trim(), before_it);
  const bar = (text) => Number(/come to ([\d.]+) bar or less/.exec(text)[1]);
  assert.ok(bar(await verdict.innerText()) > bar(before_it));
  await page.getByText('Dotted: the run as it stands.').waitFor();
  assertClean(page);
  await page.context().close();
});

test('the dregs of a run with a killer yeast are told of, and kept from the solera they would harm', { timeout: 120_000 }, async () => {
  const number = (await run('AMB-2-PLUM')).number;
  const dregs = await server.ask(`/holdings/${number}/dregs`);
  assert.equal(dregs.put_back.find((one) => one.use === 'Old Peat Row').answer, 'no');
  const page = await openPage(browser, server, `/shelf/${number}`);
  await page.getByText('Are its dregs fit to share').click();
  const row = page.locator('dl div', { hasText: 'back into Old Peat Row' });
  await row.getByText('No.', { exact: true }).waitFor();
  await row.getByText('would kill Row ale yeast').waitFor();
  await page.getByText('Tobias').first().waitFor();
  assertClean(page);
  await page.context().close();
});

test('bottles that are given away leave the run, with who has them', { timeout: 120_000 }, async () => {
  const had = await run('ST-4');
  const page = await openPage(browser, server, `/shelf/${had.number}`, { size: 'phone' });
  await page.getByRole('link', { name: 'Take bottles' }).click();
  await page.getByRole('button', { name: /how many: 1 .*more/ }).click();
  await page.getByRole('radio', { name: /^given/ }).check();
  await page.getByLabel('to whom').fill('Tobias');
  await page.getByText('2 of ST-4 given to Tobias').waitFor();
  await page.getByRole('button', { name: /^Book/ }).click();
  await page.getByRole('heading', { name: /^Booked/ }).waitFor();
  assert.equal((await run('ST-4')).left, had.left - 2);
  assertClean(page);
  await page.context().close();
});

test('a label is kept, a later entry makes it untrue, the shelf says so, and it is acknowledged', { timeout: 180_000 }, async () => {
  const number = (await run('ST-3')).number;
  const page = await openPage(browser, server, `/shelf/${number}`);
  await page.getByText(/^Run ST-3, packaged/).first().waitFor();
  await page.getByRole('button', { name: 'Keep what it says' }).click();
  await page.getByText(/label of ST-3 kept/).waitFor();
  await page.getByRole('button', { name: /^Book/ }).click();
  await page.getByRole('heading', { name: /^Booked/ }).waitFor();

  // What it came from turns out to have had milk powder in it: the paper does not say so.
  const stair = (await server.ask('/cellar')).vessels.find((v) => v.name === 'Stair 1').number;
  await server.book_sitting({
    key: '019a0000-0000-7000-8000-00000000000a',
    when: '2025-01-15',
    acts: [{ act: 'add', vessel: `#${stair}`, item: 'milk powder', amount: '5 g', kind: 'other', allergens: ['milk'] }],
  });
  await page.goto(`${server.address}/shelf`);
  const finding = page.getByRole('region', { name: 'Finding: ST-3' }).filter({ hasText: 'milk' }).first();
  await finding.waitFor();
  assert.match(await finding.innerText(), /milk/);
  await finding.getByRole('link', { name: 'Acknowledge' }).click();
  await page.getByLabel('what was done about it').fill('new labels on all of them');
  await page.getByRole('button', { name: /^Book/ }).click();
  await page.getByRole('heading', { name: /^Booked/ }).waitFor();
  assert.deepEqual((await server.ask('/findings')).findings.filter((f) => f.run === 'ST-3'), []);
  assertClean(page);
  await page.context().close();
});

test('as many labels are printed as bottles are here, and nothing else', { timeout: 120_000 }, async () => {
  const one = await run('AMB-1');
  const page = await openPage(browser, server, `/shelf/${one.number}`);
  await page.getByRole('button', { name: `Print ${one.left} labels` }).waitFor();
  await page.emulateMedia({ media: 'print' });
  assert.equal(await page.locator('.label-sheet .cell').count(), one.left);
  assert.ok(await page.locator('.label-sheet').isVisible());
  assert.equal(await page.getByRole('link', { name: 'Take bottles' }).isVisible(), false);
  assert.equal(await page.getByRole('navigation', { name: 'Rooms' }).isVisible(), false);
  await page.context().close();
});
