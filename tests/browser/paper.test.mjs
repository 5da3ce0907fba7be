// What the page hands over as PDF, read back by Poppler and ZBar; and a jar whose weights tell its gas.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { startBrowser } from './browser.mjs';
import { openPage } from './pages.mjs';
import { serveDemo } from './server.mjs';

let browser, server;
const folder = mkdtempSync(join(tmpdir(), 'undercroft-paper-'));
before(async () => {
  browser = await startBrowser();
  server = await serveDemo();
});
after(async () => {
  await browser?.close();
  await server?.stop();
  rmSync(folder, { recursive: true, force: true });
});

// The file that a touch on `button` hands over.
async function handedOver(page, button, name) {
  const [download] = await Promise.all([page.waitForEvent('download'), button.click()]);
  const file = join(folder, name);
  await download.saveAs(file);
  return { file, name: download.suggestedFilename(), text: execFileSync('pdftotext', ['-enc', 'UTF-8', file, '-']).toString() };
}
function codesOf(file) {
  execFileSync('pdftoppm', ['-r', '300', '-gray', '-png', file, `${file}-page`]);
  return execFileSync('sh', ['-c', `zbarimg -q --raw '${file}'-page*.png`], { stdio: ['ignore', 'pipe', 'ignore'] }).toString();
}

test('a sheet of labels is handed over with a code that names the run', { timeout: 120_000 }, async () => {
  const run = (await server.ask('/cellar')).runs.find((r) => r.run === 'ST-4');
  const page = await openPage(browser, server, `/shelf/${run.number}`);
  await page.getByLabel('what the beer is called').fill('Ступень, Σκάλα');
  await page.getByText('On label sheets, as PDF').click();
  const sheet = await handedOver(page, page.getByRole('button', { name: 'Labels', exact: true }), 'labels.pdf');
  assert.equal(sheet.name, 'labels-st-4.pdf');
  assert.match(sheet.text, /Ступень, Σκάλα/);
  const codes = codesOf(sheet.file);
  assert.equal(codes.match(/^ST-4$/gm).length, run.left, 'one code a label');
  assert.match(codes, /Ступень, Σκάλα/);
  await page.locator('label.grid select').selectOption('');
  await page.getByLabel('your own sheet').fill('A4, 9 x 9');
  await page.getByRole('button', { name: 'Labels', exact: true }).click();
  await page.getByText('is no sheet of labels').waitFor();
  await page.context().close();
});

test('the letter, a tag, a card and a recall are handed over', { timeout: 120_000 }, async () => {
  let page = await openPage(browser, server, '/book/files');
  const letter = await handedOver(page, page.getByRole('button', { name: /^Letter of/ }), 'letter.pdf');
  assert.match(letter.text, /The Amber[\s\S]*Who lives there[\s\S]*Its year/);
  await page.context().close();
  page = await openPage(browser, server, '/vessel/1', { size: 'phone' });
  const tag = await handedOver(page, page.getByRole('button', { name: 'Its tag to hang up' }), 'tag.pdf');
  assert.match(codesOf(tag.file), /^The Amber$/m);
  await page.context().close();
  const run = (await server.ask('/cellar')).runs.find((r) => r.run === 'AMB-2-PLUM');
  page = await openPage(browser, server, `/shelf/${run.number}`);
  await page.getByText('Are its dregs fit to share').click();
  const card = await handedOver(page, page.getByRole('button', { name: 'A card for whoever takes some' }), 'card.pdf');
  assert.match(card.text, /Plum wine yeast[\s\S]*To pitch/);
  await page.context().close();
  page = await openPage(browser, server, '/book/recall?name=Spring+amber');
  const recall = await handedOver(page, page.getByRole('button', { name: 'The list as PDF' }), 'recall.pdf');
  assert.match(recall.text, /Recall of Spring amber[\s\S]*Who has some/);
  await page.context().close();
});

test('a jar that was weighed tells its gas, and a canary narrows a run', { timeout: 120_000 }, async () => {
  const today = Date.parse(`${(await server.ask('/book')).today}T00:00:00Z`);
  const day = (back) => new Date(today - back * 86_400_000).toISOString().slice(0, 10);
  const key = (n) => `019a0000-0000-7000-8000-0000000000${n}`;
  await server.book_sitting({
    key: key(20), when: day(30),
    acts: [{ act: 'vessel', name: 'Scale jar', capacity: '22 L', role: 'finishing', material: 'glass' }, { act: 'lot', name: 'Quiet portion', vessel: 'Scale jar', volume: '20 L', original_gravity: '1.048', gravity: '1.009' }],
  });
  for (const [back, weight] of [[14, '29412 g'], [7, '29408 g'], [1, '29405 g']])
    await server.book_sitting({ key: key(30 + back), when: day(back), acts: [{ act: 'reading', subject: 'Scale jar', weight }] });
  const jar = (await server.ask('/cellar')).vessels.find((v) => v.name === 'Scale jar');
  let page = await openPage(browser, server, `/vessel/${jar.number}`);
  await page.getByRole('heading', { name: /^By its weights/ }).waitFor();
  await page.getByText(/volumes of CO2 in 30 days/).first().waitFor();
  await page.getByLabel('a like jar of water, weighed beside it').selectOption({ label: 'Jar 23' });
  await page.getByText('was never weighed since it was filled').waitFor();
  await page.context().close();
  const run = (await server.ask('/cellar')).runs.find((r) => r.run === 'AMB-3');
  page = await openPage(browser, server, `/shelf/${run.number}`);
  await page.getByLabel('canary bottle, one look a line').fill('30 days, squeeze 2');
  await page.getByText(/The canary/).first().waitFor();
  await page.getByLabel('canary bottle, one look a line').fill('squeeze 2');
  await page.getByText('is no reading of a canary').waitFor();
  await page.context().close();
});
