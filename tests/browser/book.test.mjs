// The Book on the demo cellar: found, corrected, voided, traced, taken out and brought in.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after, before, test } from 'node:test';
import { startBrowser } from './browser.mjs';
import { assertClean, openPage } from './pages.mjs';
import { serveDemo, serveEmpty } from './server.mjs';

let browser, server;
before(async () => {
  browser = await startBrowser();
  server = await serveDemo();
});
after(async () => {
  await browser?.close();
  await server?.stop();
});

test('entries are filtered by vessel, kind and words, and older ones follow', { timeout: 120_000 }, async () => {
  const page = await openPage(browser, server, '/book');
  const list = page.getByRole('list', { name: 'Entries, newest first' });
  await list.waitFor();
  const first = await list.getByRole('listitem').count();
  await page.getByRole('button', { name: 'Older entries' }).click();
  await page.waitForFunction((n) => document.querySelectorAll('ol[aria-label^="Entries"] > li').length > n, first);
  await page.getByLabel('vessel or run').selectOption({ label: 'The Amber' });
  await page.getByLabel('kind').selectOption('tasting');
  await page.getByLabel('words').fill('apricot');
  await page.waitForFunction(() => {
    const rows = [...document.querySelectorAll('ol[aria-label^="Entries"] > li')];
    return rows.length > 0 && rows.every((r) => /The Amber/.test(r.textContent) && /apricot/.test(r.textContent));
  });
  assert.match(page.url(), /words=apricot/, 'the address says what is shown');
  await page.getByLabel('words').fill('no such word');
  await page.getByText('No entry fits.').waitFor();
  assertClean(page);
  await page.context().close();
});

test('a reading is corrected in its place; the old one stays, struck through, with the reason', { timeout: 180_000 }, async () => {
  const page = await openPage(browser, server, '/book?kind=reading');
  await page.getByRole('link', { name: /1\.0052 SG.*The Amber/ }).first().click();
  await page.getByRole('button', { name: 'Correct' }).first().click();
  const gravity = page.getByLabel('gravity', { exact: true });
  await gravity.waitFor();
  assert.match(await gravity.inputValue(), /1\.0052/, 'filled from what the entry says');
  await gravity.fill('1.0056');
  await page.getByLabel('why it is corrected').fill('read off one line too low');
  await page.getByText(/reads 1\.0056/).first().waitFor();
  await page.getByRole('button', { name: /^Book/ }).click();
  await page.getByRole('heading', { name: /^Booked/ }).waitFor();

  await page.goto(`${server.address}/book?kind=reading`);
  const old = page.locator('s', { hasText: '1.0052 SG' }).first();
  await old.waitFor();
  await page.getByText(/read off one line too low/).first().waitFor();
  await page.getByRole('link', { name: /reads 1\.0056 SG/ }).first().click();
  await page.getByRole('heading', { name: 'What was said in this place' }).first().waitFor();
  assertClean(page);
  await page.context().close();
});

test('voiding what others need is refused with the list; a note is voided and stays, struck through', { timeout: 180_000 }, async () => {
  const page = await openPage(browser, server, '/book?kind=lot&subject=1');
  page.watched.expected.push(/409|400/);
  await page.getByRole('link', { name: /Founding amber/ }).last().click();
  await page.getByRole('button', { name: 'Void' }).first().click();
  await page.getByLabel('why').fill('trying it');
  const refused = page.getByRole('alert').filter({ hasText: /#\d+/ });
  await refused.waitFor();
  assert.ok((await refused.getByRole('term').count()) >= 1, 'what needs it is listed');
  assert.ok(await page.getByRole('button', { name: /^Book/ }).isDisabled());
  await page.getByRole('button', { name: 'Leave it' }).click();

  await page.goto(`${server.address}/book?kind=note&words=gushed`);
  await page.getByRole('link', { name: /Gushed at 22 C/ }).click();
  await page.getByRole('button', { name: 'Void' }).first().click();
  await page.getByLabel('why').fill('of another run');
  await page.getByRole('button', { name: /^Book/, disabled: false }).click();
  await page.getByRole('heading', { name: /^Booked/ }).waitFor();
  await page.goto(`${server.address}/book?kind=note&words=gushed`);
  await page.locator('s', { hasText: 'Gushed' }).first().waitFor();
  await page.getByRole('link', { name: /Gushed at 22 C/ }).click();
  await page.getByText(/Taken out by #\d+: of another run/).first().waitFor();
  assertClean(page);
  await page.context().close();
});

test('a run is traced to its lots and on, as a flow and as a table, and a culture to where it is', { timeout: 120_000 }, async () => {
  const cellar = await server.ask('/cellar');
  const run = cellar.runs.find((r) => r.run === 'AMB-2-PLUM');
  const page = await openPage(browser, server, `/book/trace/${run.number}`);
  await page.getByRole('img', { name: /AMB-2-PLUM/ }).waitFor();
  await page.getByText('The shares add up to 100.0 %.').waitFor();
  const trace = await server.ask(`/holdings/${run.number}/trace?direction=back`);
  for (const source of trace.sources.slice(0, 4)) await page.getByRole('link', { name: `${source.name}: where it went` }).first().waitFor();
  await page.getByRole('button', { name: /Table/ }).click();
  await page.getByRole('table', { name: 'Volumes that flowed' }).waitFor();
  await page.getByRole('link', { name: 'Plum wine yeast: where it went' }).click();
  await page.getByText(/Forward/).waitFor();
  await page.getByRole('heading', { name: 'Where the culture is' }).waitFor();
  await page.getByRole('listitem').filter({ hasText: /AMB-2-PLUM.*likely/ }).waitFor();
  assertClean(page);
  await page.context().close();
});

test('the book is proved whole on the page', { timeout: 60_000 }, async () => {
  const page = await openPage(browser, server, '/book/check');
  await page.getByText('The book is whole.').waitFor();
  const check = await server.ask('/check');
  await page.getByText(check.head).first().waitFor();
  assertClean(page);
  await page.context().close();
});

test('an export comes out and goes into an empty book, and a backup opens', { timeout: 180_000 }, async () => {
  const page = await openPage(browser, server, '/book/files');
  const fetched = async (name) => {
    const waiting = page.waitForEvent('download');
    await page.getByRole('link', { name }).click();
    return (await waiting).path();
  };
  const text = readFileSync(await fetched('Export'), 'utf8');
  assert.ok(text.split('\n').filter(Boolean).length > 400, 'a line an entry');
  assert.equal(readFileSync(await fetched('Backup')).subarray(0, 15).toString('latin1'), 'SQLite format 3');
  assertClean(page);
  await page.context().close();
});

test('rows of a spreadsheet that will not do are all named, and then it comes in once', { timeout: 180_000 }, async () => {
  const page = await openPage(browser, server, '/book/files');
  page.watched.expected.push(/400/);
  const sheet = (rows) => ({ name: 'notebook.csv', mimeType: 'text/csv', buffer: Buffer.from(`Datum;SG;Temp;Wort\n${rows.join('\n')}\n`) });
  await page.getByLabel(/Choose a file|notebook/).setInputFiles(sheet(['17.10.2026;1,0049;14;still', '31.2.2026;1,0050;14;', '18.10.2026;99;14;']));
  await page.getByRole('combobox', { name: 'Datum is' }).waitFor();
  assert.match(await page.getByRole('combobox', { name: 'Datum is' }).inputValue(), /^date/);
  assert.equal(await page.getByRole('combobox', { name: 'SG is' }).inputValue(), 'gravity');
  await page.getByRole('combobox', { name: 'Wort is' }).selectOption('note');
  await page.getByLabel('where no cell says the vessel').selectOption({ label: 'The Amber' });
  await page.getByRole('button', { name: 'Try every row' }).click();
  const alert = page.getByRole('alert');
  await alert.waitFor();
  const said = await alert.innerText();
  assert.match(said, /line 3, column Datum/);
  assert.match(said, /line 4, column SG/);
  await page.getByText('2 rows will not do.').waitFor();
  assert.match(said, /99/);
  await page.getByLabel(/Choose a file|notebook/).setInputFiles(sheet(['17.10.2026;1,0049;14;still', '18.10.2026;1,0048;14;']));
  await page.getByRole('combobox', { name: 'Wort is' }).selectOption('note');
  await page.getByLabel('where no cell says the vessel').selectOption({ label: 'The Amber' });
  await page.getByRole('button', { name: 'Try every row' }).click();
  await page.getByText('It will do.').waitFor();
  await page.getByRole('button', { name: 'Book 3 entries' }).click();
  await page.getByText('Booked:').waitFor();
  const found = await server.ask('/entries?subject=%231&words=1.0049');
  assert.equal(found.entries.filter((e) => e.day === '2026-10-17').length, 1);
  await page.getByRole('button', { name: 'Try every row' }).click();
  await page.getByText('Nothing in it is new.').waitFor();
  assertClean(page);
  await page.context().close();
});

test('an export of another book comes in, and not twice', { timeout: 180_000 }, async () => {
  const other = await serveEmpty();
  try {
    await other.book_sitting({ key: '019a0000-0000-7000-8000-00000000000b', acts: [{ act: 'vessel', name: 'Far Jar', capacity: '10 L', material: 'glass' }] });
    const text = await (await fetch(`${other.address}/api/v1/export`)).text();
    const page = await openPage(browser, server, '/book/files');
    await page.getByLabel(/Choose a file|far/).setInputFiles({ name: 'far.jsonl', mimeType: 'application/jsonl', buffer: Buffer.from(text) });
    await page.getByText('It will do.').waitFor();
    await page.getByRole('button', { name: /^Book 1 entr/ }).click();
    await page.getByText(/^Booked/).waitFor();
    const cellar = await server.ask('/cellar');
    assert.ok(cellar.vessels.some((v) => v.name === 'Far Jar'));
    await page.getByRole('button', { name: 'Look again' }).click();
    await page.getByText('Nothing in it is new').waitFor();
    assertClean(page);
    await page.context().close();
  } finally {
    await other.stop();
  }
});

test('a brew is recalled from every vessel, run and person, from the trace of it', { timeout: 120_000 }, async () => {
  const recall = await server.ask('/recall?name=Spring+amber');
  const page = await openPage(browser, server, '/book/trace?name=Spring+amber&direction=forward');
  await page.getByRole('link', { name: 'Recall list' }).click();
  await page.getByRole('heading', { name: /^Recall of Spring amber/ }).waitFor();
  await page.getByText(recall.words).waitFor();
  for (const list of [recall.vessels, recall.runs]) for (const place of list) await page.getByRole('link', { name: place.name, exact: true }).waitFor();
  for (const one of recall.runs.flatMap((place) => place.received)) await page.getByRole('cell', { name: one.who }).first().waitFor();
  await page.getByText('Hold back every container').waitFor();
  await page.getByLabel('a lot, an addition or a culture').fill('plum');
  await page.getByRole('button', { name: 'List it' }).click();
  await page.getByText('can mean').waitFor();
  page.watched.expected.push(/400/);
  assertClean(page);
  await page.context().close();
});
