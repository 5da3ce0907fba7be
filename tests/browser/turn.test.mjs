// The Turn on the demo cellar: every step shows today beside what-if, and books what it shows.
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

const vessel = async (name) => (await server.ask('/cellar')).vessels.find((v) => v.name === name);

test('dragging the pull moves the what-if, and what is booked is what was shown', { timeout: 180_000 }, async () => {
  const page = await openPage(browser, server, '/turn');
  await page.getByRole('link', { name: /^The Amber/ }).click();
  const amber = await vessel('The Amber');
  await page.getByRole('columnheader', { name: 'after' }).waitFor();
  const age = page.getByRole('row', { name: /^mean age/ });
  const usual = await age.innerText();
  const slider = page.getByRole('slider', { name: 'pull share' });
  await slider.focus();
  for (let i = 0; i < 10; i++) await page.keyboard.press('ArrowLeft');
  await page.waitForFunction((was) => ![...document.querySelectorAll('tr')].some((r) => r.innerText === was), usual);
  const refill = page.getByLabel('refill, typed, L');
  await refill.fill('12');
  await refill.press('Enter');
  await page.getByLabel('original gravity').fill('1.048');
  await page.waitForFunction(() => /12\.0 L/.test(document.querySelector('main')?.innerText ?? ''));
  await page.getByRole('button', { name: /^Book it: pull .* refill 12\.0 L$/ }).click();
  await page.getByText(/pulls from The Amber/).waitFor();
  await page.getByText(/enters The Amber \(refill\)/).waitFor();
  await page.getByRole('button', { name: 'Book 2 acts' }).click();
  await page.getByRole('heading', { name: /^Booked/ }).waitFor();
  const kept = await vessel('The Amber');
  const pulled = Number(amber.volume.value) + 12 - Number(kept.volume.value);
  // Ten steps of half a per cent below the usual third: between a quarter and a third.
  assert.ok(pulled > 0.25 * Number(amber.volume.value) && pulled < 0.33 * Number(amber.volume.value), `${pulled} L`);
  assertClean(page);
  await page.context().close();
});

test('the two ways of fruit stand side by side with their dates, and the fruit is booked', { timeout: 180_000 }, async () => {
  const page = await openPage(browser, server, '/turn/1?step=finish');
  await page.getByLabel('portion', { exact: true }).selectOption({ label: await page.getByLabel('portion', { exact: true }).locator('option', { hasText: 'Jar 12' }).innerText() });
  await page.getByRole('radio', { name: /^fruit/ }).check();
  await page.getByLabel('which fruit').selectOption('plum_fresh');
  await page.getByLabel('how much of it').fill('0.8');
  const ways = page.getByRole('table', { name: /Both ways/ });
  await ways.waitFor();
  assert.equal(await ways.getByRole('columnheader').count(), 3, 'two ways beside the names');
  await page.getByRole('heading', { name: 'Dates' }).waitFor();
  await page.getByText(/Pectinase on the fruit/).first().waitFor();
  await page.getByText('Never seal a vessel while fruit ferments', { exact: false }).waitFor();
  await page.getByRole('button', { name: 'Book it' }).click();
  await page.getByRole('button', { name: /^Book/ }).last().click();
  await page.getByRole('heading', { name: /^Booked/ }).waitFor();
  const newest = (await server.ask('/entries?most=1')).entries[0];
  assert.match(newest.text, /plum.*goes into Jar 12/);
  assertClean(page);
  await page.context().close();
});

test('a gas check with its plot and table stands beside the run, and the label it would get', { timeout: 180_000 }, async () => {
  const page = await openPage(browser, server, '/turn/1?step=package');
  await page.getByLabel('portion', { exact: true }).selectOption({ label: await page.getByLabel('portion', { exact: true }).locator('option', { hasText: 'Keg 3' }).innerText() });
  await page.getByLabel('container').selectOption('bottle_sparkling_375');
  await page.getByText('nobody has said it').waitFor();
  assert.equal(await page.getByText('maker’s limit').count(), 0, 'no line that nobody drew');
  await page.getByLabel('maker’s pressure figure').fill('30');
  await page.getByText('maker’s limit 30.0 bar').waitFor();
  await page.getByRole('button', { name: /Table/ }).first().click();
  const table = page.getByRole('table', { name: /gauge pressure against store temperature/ });
  const rows = await table.getByRole('row').allInnerTexts();
  assert.ok(rows.length >= 11, 'every point of the curve');
  const bars = rows.slice(1).map((r) => Number(r.split(/\s+/)[1]));
  assert.ok(bars.every((b, i) => i === 0 || b > bars[i - 1]), 'warmer is more pressure');
  await page.getByText(/Run KEG-1, packaged 2026-11-02/).first().waitFor();
  assertClean(page);
  await page.context().close();
});

test('a plan stays on the device, and the turn prints on one sheet', { timeout: 120_000 }, async () => {
  const page = await openPage(browser, server, '/turn/1?step=taste');
  await page.getByLabel('gravity', { exact: true }).fill('1.0047');
  await page.getByRole('columnheader', { name: 'with it' }).waitFor();
  await page.reload();
  assert.equal(await page.getByLabel('gravity', { exact: true }).inputValue(), '1.0047');
  const pdf = (await page.pdf({ preferCSSPageSize: true, format: 'A4' })).toString('latin1');
  assert.equal((pdf.match(/\/Type\s*\/Page\b/g) ?? []).length, 1);
  const box = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/.exec(pdf);
  assert.ok(Number(box[1]) > Number(box[2]), 'landscape');
  assertClean(page);
  await page.context().close();
});
