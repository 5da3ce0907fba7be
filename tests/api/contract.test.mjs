// Sample answers of the demo cellar at a pinned day, kept in contract/*.json: the page's tests read them, so what the page
// is tested with is what the program answers. UNDERCROFT_CONTRACT=write writes them anew.
import assert from 'node:assert/strict';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { after } from 'node:test';
import { fileURLToPath } from 'node:url';
import { join } from 'node:path';
import { before, demoBook, makeFolder, Server, test } from './server.mjs';

const contract = fileURLToPath(new URL('contract', import.meta.url));
const writes = process.env.UNDERCROFT_CONTRACT === 'write';
const made = new Set();
let server;

before(async () => {
  server = await Server.start(demoBook(makeFolder()));
  if (writes) mkdirSync(contract, { recursive: true });
});
after(() => server.stop());

// Compares an answer with the one that is kept under that name.
async function keep(name, method, path, body) {
  const answer = await server.request(method, `/api/v1${path}`, { body });
  made.add(`${name}.json`);
  const file = join(contract, `${name}.json`);
  const text = `${JSON.stringify({ method, path, body, status: answer.status, answer: answer.json }, null, 1)}\n`;
  if (writes) writeFileSync(file, text);
  assert.deepEqual(JSON.parse(text), JSON.parse(readFileSync(file).toString()), `${name}: UNDERCROFT_CONTRACT=write keeps the new answer`);
  return answer.json;
}

test('questions', async () => {
  await keep('book', 'GET', '/book');
  await keep('tables', 'GET', '/tables');
  const cellar = await keep('cellar', 'GET', '/cellar');
  await keep('cellar_on', 'GET', '/cellar?on=2024-06-01');
  const number = (name) => cellar.vessels.find((vessel) => vessel.name === name).number;
  const run = cellar.runs.find((one) => one.run === 'AMB-3').number;
  for (const [word, of] of [['amber', number('The Amber')], ['peat', number('Old Peat Row')], ['stair', number('Stair 1')], ['jar', number('Jar 12')], ['run', run]]) {
    await keep(`holding_${word}`, 'GET', `/holdings/${of}`);
    await keep(`river_${word}`, 'GET', `/holdings/${of}/river`);
    await keep(`readings_${word}`, 'GET', `/holdings/${of}/readings`);
    await keep(`flow_${word}`, 'GET', `/holdings/${of}/flow`);
  }
  await keep('age_amber', 'GET', `/holdings/${number('The Amber')}/age?state=after`);
  await keep('age_run', 'GET', `/holdings/${run}/age`);
  await keep('trace_run', 'GET', `/holdings/${run}/trace?direction=back`);
  const entries = await keep('entries', 'GET', '/entries?most=30');
  await keep('entries_next', 'GET', `/entries?most=5&before=${entries.more}`);
  await keep('entries_tastings', 'GET', '/entries?kind=tasting&words=sour&most=5');
  await keep('entry', 'GET', `/entries/${entries.entries.find((one) => one.kind === 'reading').number}`);
  await keep('due', 'GET', '/due');
  await keep('round', 'GET', '/round');
  await keep('gear', 'GET', '/gear');
  await keep('findings', 'GET', '/findings');
  await keep('shelf', 'GET', '/shelf');
  await keep('recall', 'GET', '/recall?name=Spring+amber');
  await keep('recall_culture', 'GET', '/recall?name=Plum+wine+yeast');
  await keep('dregs', 'GET', `/holdings/${run}/dregs`);
  await keep('check', 'GET', '/check');
  await keep('not_found', 'GET', '/holdings/999999');
});

test('sums', async () => {
  await keep('gas_run', 'POST', '/gas', { beer: 'AMB-3' });
  await keep('gas_amber', 'POST', '/gas', { beer: 'Amber', container: 'bottle_sparkling_750', priming: '4 g/L', limit: '10 bar' });
  await keep('fruit', 'POST', '/fruit', { fruit: 'plum', mass: '3 kg', beer: 'Jar 12' });
  await keep('change', 'POST', '/change', { vessel: 'Amber', share: 'a quarter', turns: '4' });
  await keep('label', 'POST', '/labels', { run: 'AMB-3' });
  await keep('design', 'POST', '/design', { demand: '60 L', age: '3 years', wait: '6 years', show: '3' });
  await keep('design_draft', 'POST', '/design/draft', { demand: '60 L', age: '3 years', draft: '1', show: '1', name: 'New row' });
  await keep('solera', 'POST', '/age-sums', { vessels: ['60 L', '60 L'], pull: '20 L', every: '1 year', turns: '4' });
  await keep('calc_alcohol', 'POST', '/calc/alcohol', { og: '1.052', gravity: '1.008' });
  await keep('calc_blend', 'POST', '/calc/blend', { part: ['20 L, ph 3.3, ta 7', '10 L, ph 4.2, ta 2.1, alcohol 6'] });
});

test('sittings', async () => {
  const acts = [
    { act: 'reading', subject: 'Amber', gravity: '1.008', ph: '3.42', temperature: '18 C', sample: '80 mL' },
    { act: 'move', from: 'Amber', reason: 'pull', to: [{ vessel: 'Jar 23', volume: '18 L' }] },
    { act: 'lot', vessel: 'Amber', name: 'Spring wort', volume: '18 L', reason: 'refill', original_gravity: '1.048' },
  ];
  const shown = await keep('preview', 'POST', '/sittings/preview', { acts, by: 'Ines' });
  const expected = { sequence: shown.book.sequence, touched: shown.touched };
  await keep('jotted', 'POST', '/jot/preview', { line: 'Amber 1.008 pH 3.42 18 C; pulled 2 L to Jar 23; tasted sour 6, lemon', taster: 'Ines' });
  await keep('preview_package', 'POST', '/sittings/preview', { acts: [{ act: 'package', from: 'Jar 12', container: 'bottle_330_heavy', count: '6', priming: '9 g/L' }] });
  await keep('preview_bad', 'POST', '/sittings/preview', { acts: [{ act: 'reading', subject: 'Amber', gravity: '3.4' }] });
  await keep('preview_form', 'POST', '/sittings/preview', { acts: [{ act: 'reading', subjct: 'Amber', gravity: '1.008' }] });
  await keep('preview_impossible', 'POST', '/sittings/preview', { acts: [{ act: 'loss', vessel: 'Amber', volume: '900 L', cause: 'spill' }] });
  const key = (number) => `019ceee0-0000-7000-8000-00000000000${number}`;
  await keep('booked', 'POST', '/sittings', { key: key(1), acts, by: 'Ines', expected });
  await keep('already', 'POST', '/sittings', { key: key(1), acts, by: 'Ines', expected });
  await keep('other_body', 'POST', '/sittings', { key: key(1), acts: acts.slice(0, 1), by: 'Ines' });
  await keep('stale', 'POST', '/sittings', { key: key(2), acts: acts.slice(0, 1), by: 'Ines', expected: { ...expected, touched: expected.touched.filter((one) => one.name === 'The Amber') } });
  await keep('preview_sheet', 'POST', '/import-csv/preview', { text: 'Datum,SG\n2026-02-01,"1,0071"\n', map: ['Datum=date,SG=gravity'], vessel: 'Amber' });
});

test('no answer is kept that nobody asks for', () => {
  assert.deepEqual(readdirSync(contract).filter((name) => !made.has(name)), []);
});
