// Finishing on the page: every way ranked with its reasons, one decided on and booked with its forecast, and what came laid beside it.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { k_sizes, startBrowser } from './browser.mjs';
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

test('a pull is split, one half finished on fruit and one left alone, tasted and learned from, on a phone', { timeout: 180_000 }, async () => {
  await server.book_sitting({
    key: '019a0000-0000-7000-8000-0000000000f1',
    acts: [
      { act: 'target', subject: 'The Amber', wants: ['sourness 4 to 7', 'berry_cherry 3 to 7', 'body 2 to 6'] },
      { act: 'move', reason: 'pull', from: 'The Amber', to: [{ vessel: 'Jar 23', volume: '9 L' }, { vessel: 'Keg 1', volume: '8 L' }] },
      { act: 'tasting', subject: 'Jar 23', taster: 'Ines', scores: ['sourness=6', 'berry_cherry=1', 'body=4'] },
      { act: 'tasting', subject: 'Keg 1', taster: 'Ines', scores: ['sourness=6', 'berry_cherry=1', 'body=4'] },
    ],
  });
  const page = await openPage(browser, server, '/bench/finish', k_sizes.phone);
  const jar = await page.getByLabel('what stands in').locator('option', { hasText: 'Jar 23' }).getAttribute('value');
  await page.getByLabel('what stands in').selectOption(jar);
  await page.getByRole('button', { name: 'Rank every way' }).click();
  await page.getByText(/ways ranked by the chance/).waitFor();
  const rows = page.locator('.rows > li');
  assert.ok((await rows.count()) >= 12);
  await page.getByText('Leave it alone and package as it is').first().waitFor();
  await page.getByText('Only some kinds').click();
  await page.getByLabel('fruit', { exact: true }).check();
  const cherry = rows.filter({ hasText: 'Sour cherry, straight onto the beer' });
  await cherry.locator('summary').click();
  await cherry.getByText(/moves it by/).first().waitFor();
  await cherry.getByText(/not back into a solera/).waitFor();
  await cherry.getByText(/Pits go in whole or not at all/).first().waitFor();
  await cherry.getByRole('button', { name: 'Decide on it' }).click();
  await page.getByLabel('why').fill('short of fruit');
  await page.getByRole('button', { name: /^Book/ }).first().click();
  await page.getByText(/is to be finished/).first().waitFor();
  assertClean(page);
  await page.context().close();

  const learned = await openPage(browser, server, '/bench/finish', k_sizes.phone);
  const taught = learned.locator('section.learned');
  await taught.getByText(/1 finish was decided, 0 tasted since/).waitFor();
  await taught.getByText(/a tasting tells from/).waitFor();
  assertClean(learned);
  await learned.context().close();
});

test('the step of a turn ranks every way beside the target', { timeout: 120_000 }, async () => {
  const page = await openPage(browser, server, '/turn/1?step=finish');
  await page.getByRole('heading', { name: /Every way, ranked/ }).waitFor();
  await page.getByRole('button', { name: 'Rank every way' }).click();
  await page.getByText(/ways ranked by the chance/).waitFor();
  await page.getByText('Not offered').or(page.getByText('Splits')).first().waitFor();
  assertClean(page);
  await page.context().close();
});
