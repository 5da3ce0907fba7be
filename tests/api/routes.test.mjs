// Every route of the OpenAPI document: what it answers, good and bad, is what the document says.
import assert from 'node:assert/strict';
import { after } from 'node:test';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Document } from './document.mjs';
import { before, command, commandText, demoBook, emptyBook, k_day, makeFolder, newKey, Server, test } from './server.mjs';

const folder = makeFolder();
let server;
let empty;
let document;

// Asks, holds the answer to the document, and expects that status. What is sent is held to it too: the server and the
// document must agree on whether a body will do.
async function ask(method, address, expected, body, of = server) {
  const answer = await of.request(method, `/api/v1${address}`, { body });
  document.hold(method, address, answer);
  assert.equal(answer.status, expected, `${method} ${address} ${JSON.stringify(body)}: ${answer.raw.toString().slice(0, 400)}`);
  if (body !== undefined && typeof body === 'object') {
    const taken = document.takes(method, address, body);
    if (taken !== undefined && answer.status < 400) assert.ok(taken, `the document refuses what ${address} took`);
  }
  return answer.json;
}

// A body that breaks the form: refused by the document and by the server alike, which names the place.
async function refusesForm(address, body, where) {
  assert.equal(document.takes('POST', address, body), false, `the document takes ${JSON.stringify(body)}`);
  const answer = await ask('POST', address, 400, body);
  assert.equal(answer.error.kind, 'bad_input');
  assert.equal(answer.error.where, where);
}

const litres = (amount) => Number(amount.value) * (amount.unit === 'mL' ? 0.001 : 1);
const close = (a, b, by) => assert.ok(Math.abs(a - b) <= by, `${a} is not ${b}`);

before(async () => {
  server = await Server.start(demoBook(folder));
  empty = await Server.start(emptyBook(folder));
  const answer = await server.get('/openapi.json');
  document = new Document(answer.json);
  document.hold('GET', '/openapi.json', answer);
});

after(async () => {
  await server.stop();
  await empty.stop();
});

test('the document is OpenAPI 3.1', () => {
  assert.deepEqual(document.faultsOfTheDocument(), []);
});

test('an answer that is not as documented is seen', () => {
  const answer = { status: 200, headers: { 'content-type': 'application/json' }, json: { name: 'Kiln Lane' } };
  assert.throws(() => document.hold('GET', '/book', answer));
  assert.throws(() => document.hold('GET', '/book', { ...answer, status: 418 }));
  assert.throws(() => document.hold('GET', '/nothing', answer));
});

test('a book tells what it is', async () => {
  const full = await ask('GET', '/book', 200);
  assert.deepEqual([full.book.name, full.book.invented, full.empty, full.today], ['Kiln Lane', true, false, k_day]);
  const other = await ask('GET', '/book', 200, undefined, empty);
  assert.deepEqual([other.book.name, other.book.sequence, other.empty], ['Fen Row', 0, true]);
});

test('the invented cellar stands beside a book of one\'s own, and is another one', async () => {
  const demo = await ask('GET', '/book?cellar=demo', 200, undefined, empty);
  assert.equal(demo.book.invented, true);
  const vessel = { act: 'vessel', name: 'Trial jar', capacity: '5 L' };
  await ask('POST', '/sittings?cellar=demo', 201, { key: newKey(), acts: [vessel] }, empty);
  assert.equal((await ask('GET', '/book', 200, undefined, empty)).book.sequence, 0);
  assert.equal((await ask('GET', '/book?cellar=demo', 200, undefined, empty)).book.sequence, demo.book.sequence + 1);
  await ask('GET', '/cellar?cellar=other', 400);
});

test('what can be chosen has the rows of the tables', async () => {
  const choices = await ask('GET', '/tables', 200);
  const rows = (file) => readFileSync(new URL(`../../data/${file}.csv`, import.meta.url)).toString().trim().split('\n').length - 1;
  assert.equal(choices.cultures.length, rows('cultures'));
  assert.equal(choices.containers.length, rows('containers'));
  assert.equal(choices.flavourings.length, rows('flavourings'));
  assert.ok(choices.words.reasons.includes('top-up'));
});

test('the cellar is what the command line says it is', async () => {
  const book = join(folder, 'kiln-lane.undercroft');
  assert.deepEqual(await ask('GET', '/cellar', 200), command(['cellar', '--book', book]));
  assert.deepEqual(await ask('GET', '/cellar?on=2025-01-01', 200), command(['cellar', '--on', '2025-01-01', '--book', book]));
  assert.deepEqual(await ask('GET', '/due', 200), command(['due', '--book', book]));
  assert.deepEqual(await ask('GET', '/due?within=8+weeks', 200), command(['due', '--within', '8 weeks', '--book', book]));
  assert.deepEqual(await ask('GET', '/round', 200), command(['round', '--list', '--book', book]));
  assert.deepEqual(await ask('GET', '/findings', 200), command(['findings', '--book', book]));
  assert.deepEqual(await ask('GET', '/shelf', 200), command(['shelf', '--book', book]));
  assert.deepEqual(await ask('GET', '/recall?name=Spring+amber', 200), command(['recall', 'Spring amber', '--book', book]));
  await ask('GET', '/holdings/3/weighing', 400); // nobody weighed it
  await ask('GET', '/holdings/3/weighing?twin=nowhere', 404);
  await ask('GET', '/recall?name=plum', 400); // a fruit or a yeast
  await ask('GET', '/recall?name=nothing+like+it', 404);
  await ask('GET', '/recall', 400);
  assert.deepEqual(await ask('GET', '/entries?subject=Amber&most=7', 200), command(['entries', 'Amber', '--most', '7', '--book', book]));
  await ask('GET', '/cellar?on=tomorrow', 400);
  await ask('GET', '/due?within=14', 400);
});

test('a blend is planned from the book as the command line plans it, and from typed stocks', async () => {
  const book = join(folder, 'kiln-lane.undercroft');
  const wish = { volume: '10 L', wants: ['ph 3.45 to 3.55'], musts: ['alcohol at most 7'], most_stocks: '3', recipes: '2', glass: '100 mL', surest: true };
  assert.deepEqual(await ask('POST', '/plan/blend', 200, wish), command(['plan', 'blend', '--volume', '10 L', '--want', 'ph 3.45 to 3.55', '--must', 'alcohol at most 7', '--most-stocks', '3', '--recipes', '2', '--glass', '100 mL', '--surest', '--book', book]));
  const drafted = await ask('POST', '/plan/blend', 200, { ...wish, into: 'Jar 23' });
  const shown = await ask('POST', '/sittings/preview', 200, { acts: drafted.drafted.acts });
  assert.ok(shown.after.some((one) => one.vessel?.name === 'Jar 23'), 'the drafted moves fill it');
  await ask('POST', '/plan/blend', 409, { ...wish, musts: ['ph at most 2.5'] });
  await ask('POST', '/plan/blend', 400, { volume: '10 L', wants: ['tasty'] });
  const blind = { subjects: ['The Amber', 'Stair 1'], tasters: ['Ines', 'Marit'], twice: ['Stair 1'], set: 'K7' };
  const laid = await ask('POST', '/plan/tasting', 200, blind);
  assert.deepEqual(laid, command(['plan', 'tasting', 'The Amber', 'Stair 1', '--taster', 'Ines', '--taster', 'Marit', '--twice', 'Stair 1', '--set', 'K7', '--book', book]));
  const found = laid.sheets.flatMap((sheet) => sheet.codes.map((code) => `${sheet.taster} ${code} ${laid.attributes[0].id}=6 clean`));
  const uncovered = await ask('POST', '/plan/tasting', 200, { ...blind, found });
  assert.deepEqual(uncovered.drafted.acts.map((act) => act.subject).sort(), ['Stair 1', 'Stair 1', 'Stair 1', 'Stair 1', 'The Amber', 'The Amber']);
  await ask('POST', '/plan/tasting', 400, { ...blind, found: found.slice(1) });
  await ask('POST', '/plan/tasting', 400, { ...blind, found: [...found, found[0]] });
  await ask('POST', '/plan/tasting', 400, { ...blind, tasters: ['Ines', 'ines'] });
  await ask('POST', '/plan/tasting', 400, { ...blind, subjects: [] });
  await refusesForm('/plan/tasting', { subject: [] }, 'subject');
  await ask('POST', '/plan/blend', 404, { ...wish, stocks: ['Nowhere'] });
  await refusesForm('/plan/blend', { wishes: [] }, 'wishes');
  const typed = { stocks: ['Sharp, 30 L, ph 3.2, ta 8', 'Soft, 40 L, ph 4.1, ta 2'], volume: '20 L', wants: ['ph 3.5'] };
  assert.deepEqual(await ask('POST', '/calc/blending', 200, typed), command(['calc', 'blending', '--stock', typed.stocks[0], '--stock', typed.stocks[1], '--volume', '20 L', '--want', 'ph 3.5']));
  await ask('POST', '/calc/blending', 400, { volume: '20 L', wants: ['ph 3.5'] });
});

test('what was liked proposes the next glasses, and the best becomes litres', async () => {
  const book = join(folder, 'kiln-lane.undercroft');
  const wish = { liked: ['50 mL Amber, 50 mL Stair 1: 6', '80 mL Amber, 20 mL Stair 1: 7.5', '20 mL Amber, 80 mL Stair 1: 4'], volume: '10 L' };
  const planned = await ask('POST', '/plan/trials', 200, wish);
  const typed = wish.liked.flatMap((glass) => ['--liked', glass]);
  assert.deepEqual(planned, command(['plan', 'trials', ...typed, '--volume', '10 L', '--book', book]));
  assert.equal(planned.best, 2);
  assert.ok(Math.abs(planned.parts.reduce((sum, part) => sum + part.litres, 0) - 10) < 0.01);
  const drafted = await ask('POST', '/plan/trials', 200, { ...wish, into: 'Jar 23' });
  const shown = await ask('POST', '/sittings/preview', 200, { acts: drafted.drafted.acts });
  assert.ok(shown.after.some((one) => one.vessel?.name === 'Jar 23'), 'the drafted moves fill it');
  await ask('POST', '/plan/trials', 400, { liked: ['50 mL Amber, 50 mL Stair 1: 60'] });
  await ask('POST', '/plan/trials', 400, { liked: [] });
  await ask('POST', '/plan/trials', 404, { liked: ['50 mL Nowhere, 50 mL Stair 1: 6'] });
  await refusesForm('/plan/trials', { liked: [], weather: 'fine' }, 'weather');
});

test('a quarter is planned as the command line plans it', async () => {
  const book = join(folder, 'kiln-lane.undercroft');
  const wish = { products: ['Autumn, 12 L, ph 3.4 to 3.5, into Keg 2', 'Winter, 8 L, ta 5 to 7'], refills: ['Spring wort, 30 L'], feeds: ['Stair 2 into Stair 1', 'Stair 3 into Stair 2'] };
  const planned = await ask('POST', '/plan/quarter', 200, wish);
  assert.deepEqual(planned, command(['plan', 'quarter', '--product', wish.products[0], '--product', wish.products[1], '--refill', wish.refills[0], '--feed', wish.feeds[0], '--feed', wish.feeds[1], '--book', book]));
  const out = planned.drawn.reduce((sum, one) => sum + one.litres, 0);
  const back = planned.refills.reduce((sum, one) => sum + one.litres, 0);
  assert.ok(Math.abs(out - back) < 0.01, `what left ${out} came back ${back}`);
  await ask('POST', '/plan/quarter', 409, { ...wish, refills: ['Spring wort, 1 L'] });
  await ask('POST', '/plan/quarter', 400, { products: ['Autumn'] });
  await ask('POST', '/plan/quarter', 404, { ...wish, stocks: ['Nowhere'] });
  await refusesForm('/plan/quarter', { products: [], weather: 'fine' }, 'weather');
});

test('a finish is planned, decided and learned from as the command line has it', async () => {
  const own = demoBook(folder, 'finish.undercroft');
  const side = await Server.start(own);
  const wish = { subject: 'The Amber', volume: '18 L', wants: ['sour 4 to 6', 'ta at most 7'], only: ['fruit', 'spice'], prices: ['sour cherry 6'] };
  const planned = await ask('POST', '/plan/finish', 200, wish, side);
  assert.deepEqual(planned, command(['plan', 'finish', 'The Amber', '--volume', '18 L', '--want', 'sour 4 to 6', '--want', 'ta at most 7', '--only', 'fruit', '--only', 'spice', '--price', 'sour cherry 6', '--book', own]));
  assert.ok(planned.options.some((one) => one.technique === 'leave'));
  assert.ok(planned.options.every((one) => one.reasons.length > 0), 'every row explains itself');
  assert.ok(planned.options.find((one) => one.technique === 'fruit_sour_cherry').cost > 0);
  const one = await ask('POST', '/plan/finish', 200, { ...wish, technique: 'vanilla', dose: '0.8 g/L', from: k_day }, side);
  assert.equal(one.options.length, 1);
  assert.ok(one.dates.length >= 4 && one.command.startsWith('undercroft decide'));
  await ask('POST', '/plan/finish', 400, { ...wish, wants: ['tasty'] }, side);
  await ask('POST', '/plan/finish', 400, { ...wish, technique: 'vanilla', dose: '90 g/L' }, side);
  await ask('POST', '/plan/finish', 404, { ...wish, subject: 'Nowhere' }, side);
  await refusesForm('/plan/finish', { subject: 'The Amber', weather: 'fine' }, 'weather');
  const typed = { beer: 'Pull, 20 L, ph 3.4, ta 7.1, alcohol 6, culture mixed_sour, sour 7', wants: ['sour 4 to 6'], only: ['oak'], faults: [] };
  assert.deepEqual(
    { ...(await ask('POST', '/calc/finish', 200, typed)), on: '' },
    { ...command(['calc', 'finish', '--beer', typed.beer, '--want', 'sour 4 to 6', '--only', 'oak']), on: '' },
  );
  await ask('POST', '/calc/finish', 400, { wants: ['sour 4 to 6'] });
  assert.equal((await ask('GET', '/learned', 200, undefined, side)).portions.length, 0);
  const pull = { act: 'move', from: 'The Amber', reason: 'pull', to: [{ vessel: 'Jar 23', volume: '9 L' }] };
  const decide = { act: 'decide', vessel: 'Jar 23', technique: 'sour cherry', dose: '150 g/L', wants: ['sour 4 to 6'], words: 'short of fruit' };
  await ask('POST', '/sittings', 201, { key: newKey(), acts: [pull, decide] }, side);
  const learned = await ask('GET', '/learned', 200, undefined, side);
  assert.deepEqual(learned, command(['learned', '--book', own]));
  assert.equal(learned.portions[0].technique, 'fruit_sour_cherry');
  assert.equal(learned.portions[0].tasted, '');
  await ask('GET', '/learned?on=soon', 400, undefined, side);
  await side.stop();
});

test('what is put on paper comes as PDF, and keeps nothing', async () => {
  const run = (await ask('GET', '/cellar', 200)).runs.find((one) => one.left > 0);
  const before_it = (await ask('GET', '/book', 200)).book.sequence;
  for (const address of [
    `labels?subject=%23${run.number}&count=3&outlines=true`, `necks?subject=%23${run.number}`, `crowns?subject=%23${run.number}&grid=A4,+6+x+9,+30+x+30+mm`,
    'tags', 'tags?vessels=Amber&vessels=Jar+12&paper=Letter', `card?subject=%23${run.number}`, 'recall?subject=coriander', 'letter?without_pages=true', 'pages?paper=letter',
  ]) {
    const answer = await server.request('GET', `/api/v1/print/${address}`);
    document.hold('GET', `/print/${address}`, answer);
    assert.equal(answer.status, 200, `${address}: ${answer.raw.toString().slice(0, 300)}`);
    assert.equal(answer.raw.subarray(0, 5).toString(), '%PDF-', address);
  }
  assert.equal((await ask('GET', '/book', 200)).book.sequence, before_it);
  await ask('GET', '/print/posters', 400);
  await ask('GET', '/print/labels', 400);
  await ask('GET', '/print/labels?subject=NONE-1', 404);
  await ask('GET', `/print/labels?subject=%23${run.number}&grid=A9`, 400);
  await ask('GET', `/print/labels?subject=%23${run.number}&count=0`, 400);
  await ask('GET', `/print/labels?subject=%23${run.number}&outlines=maybe`, 400);
  await ask('GET', `/print/labels?subject=%23${run.number}&picture=%231`, 404); // an entry without a picture
  await ask('GET', '/print/letter?year=2400', 400);
});

test('every vessel and run answers under its number', async () => {
  const book = join(folder, 'kiln-lane.undercroft');
  const cellar = await ask('GET', '/cellar', 200);
  for (const holding of [...cellar.vessels, ...cellar.runs]) {
    const shown = await ask('GET', `/holdings/${holding.number}`, 200);
    assert.deepEqual(shown, command(['show', `#${holding.number}`, '--book', book]));
    const river = await ask('GET', `/holdings/${holding.number}/river`, 200);
    await ask('GET', `/holdings/${holding.number}/readings`, 200);
    assert.deepEqual(await ask('GET', `/holdings/${holding.number}/dregs`, 200), command(['dregs', `#${holding.number}`, '--book', book]));
    assert.deepEqual(await ask('GET', `/holdings/${holding.number}/gap`, 200), command(['gap', `#${holding.number}`, '--book', book]));
    assert.deepEqual(await ask('GET', '/tasting-words?word=mousy', 200), command(['tasting-words', 'mousy', '--book', book]));
    assert.deepEqual(await ask('GET', `/holdings/${holding.number}/panel`, 200), command(['panel', `#${holding.number}`, '--book', book]));
    await ask('GET', `/holdings/${holding.number}/flow`, 200);
    await ask('GET', `/holdings/${holding.number}/trace?direction=back`, 200);
    const here = shown.vessel ? shown.vessel.volume : undefined;
    // What the river ends with is what the vessel holds, and its parts are all of it.
    if (here && river.steps.length > 0) assert.deepEqual(river.steps.at(-1).volume, here);
    for (const step of river.steps)
      close(step.parts.reduce((sum, part) => sum + litres(part.volume), 0), litres(step.volume), 1e-9);
  }
  const retired = await ask('GET', '/entries?kind=retire', 200);
  for (const entry of retired.entries) assert.ok(entry.number > 0);
  await ask('GET', '/holdings/999999', 404);
  await ask('GET', '/holdings/amber', 400);
  await ask('GET', '/holdings/8', 404); // an entry, but no vessel
});

test('what came into a vessel is what is there and what went on', async () => {
  for (const number of [1, 2]) {
    const flow = await ask('GET', `/holdings/${number}/flow`, 200);
    const self = flow.nodes[0].id;
    const sum = (links) => links.reduce((total, link) => total + litres(link.volume), 0);
    const came = sum(flow.links.filter((link) => link.to === self));
    const went = sum(flow.links.filter((link) => link.from === self));
    // Every figure is rounded to the microlitre.
    close(came, went + litres(flow.here), 1e-6 * flow.links.length);
    assert.equal(new Set(flow.nodes.map((node) => node.id)).size, flow.nodes.length);
    for (const link of flow.links)
      for (const end of [link.from, link.to]) assert.ok(flow.nodes.some((node) => node.id === end), end);
  }
});

test('how old a vessel is', async () => {
  const book = join(folder, 'kiln-lane.undercroft');
  assert.deepEqual(await ask('GET', '/holdings/1/age', 200), command(['age', 'The Amber', '--book', book]));
  const after = await ask('GET', '/holdings/1/age?state=after&from=entry&older_than=3+years&older_than=18+months', 200);
  assert.deepEqual([after.state, after.age.from, after.older.length], ['after_refill', 'entry', 2]);
  await ask('GET', '/holdings/1/age?state=soon', 400);
  await ask('GET', '/holdings/1/age?older_than=3', 400);
});

test('traces go back from bottles and forward from brews', async () => {
  const cellar = await ask('GET', '/cellar', 200);
  const back = await ask('GET', `/trace?name=${cellar.runs[0].run}&direction=back`, 200);
  close(back.share_sum, 1, 1e-9);
  const forward = await ask('GET', `/trace?name=${encodeURIComponent(back.sources[0].name)}&direction=forward`, 200);
  close(forward.share_sum, 1, 1e-6);
  await ask('GET', '/trace?name=Amber&direction=sideways', 400);
  await ask('GET', '/trace?direction=back', 400);
  await ask('GET', '/trace?name=Nobody+knows+it&direction=back', 404);
});

test('entries come page by page, each once', async () => {
  const all = (await ask('GET', '/entries?most=1000', 200)).entries;
  const paged = [];
  let more = '';
  for (;;) {
    const page = await ask('GET', `/entries?most=100${more}`, 200);
    paged.push(...page.entries);
    if (page.more === null) break;
    more = `&before=${page.more}`;
  }
  assert.deepEqual(paged, all);
  const tastings = await ask('GET', '/entries?kind=tasting&words=sour+Ines&most=1000', 200);
  assert.ok(tastings.entries.length > 0);
  for (const one of tastings.entries) assert.ok(one.kind === 'tasting' && /sour/i.test(one.text) && /ines/i.test(one.text + one.by));
  await ask('GET', '/entries?kind=brewing', 400);
  await ask('GET', '/entries?most=0', 400);
  await ask('GET', '/entries?subject=Nobody', 404);
  await ask('GET', '/entries?sibject=Amber', 400);
});

test('every entry says what it could be corrected with, and that changes nothing', async () => {
  const all = (await ask('GET', '/entries?most=1000', 200)).entries;
  const without = new Set(['snapshot', 'acknowledge', 'void']);
  const tried = new Map();
  for (const entry of all.filter((one) => one.live)) {
    const told = await ask('GET', `/entries/${entry.number}`, 200);
    assert.ok(told.chain.some((one) => one.number === entry.number));
    if (told.act === null) {
      assert.ok(without.has(entry.kind), `#${entry.number} ${entry.kind} has no act`);
      continue;
    }
    // A few of each kind: each is a replay of the whole book.
    tried.set(entry.kind, (tried.get(entry.kind) ?? 0) + 1);
    if (tried.get(entry.kind) > 12) continue;
    const view = await ask('POST', '/sittings/preview', 200, { acts: [{ act: 'correct', entry: `#${entry.number}`, instead: told.act }] });
    assert.deepEqual(view.changes, [], `#${entry.number} ${entry.text}`);
    assert.deepEqual(view.entries[0].text, entry.text);
  }
  await ask('GET', '/entries/0', 404);
  await ask('GET', '/entries/last', 400);
});

test('a picture is kept with a note and comes back byte for byte', async () => {
  const pixel = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAQAAAC1HAwCAAAAC0lEQVR42mNk+A8AAQUBAScY42YAAAAASUVORK5CYII=';
  const booked = await ask('POST', '/sittings', 201, { key: newKey(), acts: [{ act: 'note', subject: '#1', words: 'pellicle', picture: pixel }] });
  const number = booked.entries[0].number;
  const answer = await server.get(`/entries/${number}/picture`);
  document.hold('GET', `/entries/${number}/picture`, answer);
  assert.deepEqual([answer.status, answer.headers['content-type'], answer.raw.toString('base64')], [200, 'image/png', pixel]);
  await ask('GET', '/entries/1/picture', 404);
  await ask('POST', '/sittings/preview', 400, { acts: [{ act: 'note', picture: Buffer.from('no picture').toString('base64') }] });
  await ask('POST', '/sittings/preview', 400, { acts: [{ act: 'note', picture: 'not base64!' }] });
});

test('a book is proved whole', async () => {
  const check = await ask('GET', '/check', 200);
  assert.equal(check.ok, true);
  assert.deepEqual((await ask('GET', '/check?check=chain&check=volumes', 200)).findings.map((one) => one.check).sort(), ['chain', 'volumes']);
  await ask('GET', `/check?head=${check.head}`, 200);
  await ask('GET', '/check?check=weather', 400);
});

test('a sitting is previewed and booked as it was shown', async () => {
  const acts = [
    { act: 'reading', subject: 'Amber', gravity: '1.008', ph: '3,42', sample: '80 mL' },
    { act: 'move', from: '#1', reason: 'pull', to: [{ vessel: 'Jar 23', volume: '3 L' }] },
  ];
  const shown = await ask('POST', '/sittings/preview', 200, { acts, by: 'Ines' });
  assert.equal(shown.booked, false);
  assert.equal(shown.objection, null);
  assert.deepEqual(shown.touched.map((one) => one.name).sort(), ['Jar 23', 'The Amber']);
  const expected = { sequence: shown.book.sequence, touched: shown.touched };
  const booked = await ask('POST', '/sittings', 201, { key: newKey(), acts, by: 'Ines', expected });
  assert.equal(booked.booked, true);
  assert.deepEqual(booked.changes, shown.changes);
  assert.ok(booked.entries.every((entry) => entry.number > 0));
  const before = await ask('GET', '/holdings/1?on=2026-03-13', 200);
  assert.notDeepEqual(before.vessel.volume, booked.after[0].vessel.volume);
});

test('every act is taken in JSON', async () => {
  const told = async (acts, status = 200) => ask('POST', '/sittings/preview', status, { acts, by: 'Ines' });
  const vessel = { act: 'vessel', name: 'Oak tub', tag: 'T9', capacity: '30 L', ullage: '2 L', role: 'solera', material: 'oak', location: 'yard' };
  const lot = { act: 'lot', vessel: 'Oak tub', name: 'Trial wort', volume: '20 L', kind: 'beer', reason: 'fill', brewed: '2026-03-01', original_gravity: '1.048', gravity: '1.010', alcohol: '5 %', ibu: '8', colour: '12', ph: '4.1', ta: '2.1 g/L', allergens: ['gluten'], cultures: ['mixed sour culture'] };
  const view = await told([
    vessel,
    lot,
    { act: 'pitch', vessel: 'Oak tub', kind: 'mixed sour culture', name: 'House culture', killer: 'sensitive', toxin: 'none', diastatic: 'no', origin: 'own', suspected: true },
    { act: 'reading', subject: 'Oak tub', gravity: '1.009', ph: '3.9', ta: '4 g/L', temperature: '18 C', dissolved_co2: '0.9 vol', read_at: '20 C', instrument: 'short hydrometer', sample: '50 mL' },
    { act: 'tasting', subject: 'Oak tub', taster: 'Ines', scores: ['sour=4'], faults: ['mousy'], words: 'thin yet', liking: '5', sample: '30 mL' },
    { act: 'add', vessel: 'Oak tub', item: 'sour cherry', amount: '1 kg', contained: true, hold_up: '10 %' },
    { act: 'lift', vessel: 'Oak tub', item: 'sour cherry' },
    { act: 'add', vessel: 'Oak tub', kind: 'other', item: 'hay', amount: '5 g', live: true, cultures: ['wild_unknown'], allergens: ['gluten'] },
    { act: 'loss', vessel: 'Oak tub', volume: '100 mL', cause: 'spill' },
    { act: 'interval', subject: 'Oak tub', what: 'top-up', every: '6 weeks' },
    { act: 'target', subject: 'Oak tub', wants: ['sour 3 to 5', 'ph 3.6 to 3.9 weight 2'], words: 'soft' },
    { act: 'decide', vessel: 'Oak tub', technique: 'age_on', dose: '3 months', days: '91', volume: '10 L', wants: ['sour 3 to 5'], words: 'mousy yet' },
    { act: 'note', subject: 'Oak tub', words: 'hoop tightened' },
    { act: 'move', reason: 'rack', from: 'Oak tub', to: [{ vessel: 'Jar 23', volume: '1 L' }], loss: '50 mL' },
  ]);
  assert.ok(view.entries.length >= 12);
  await told([vessel, { act: 'retire', vessel: 'Oak tub' }]);
  await told([vessel, { act: 'clean', vessel: 'Oak tub', words: 'steam' }]);
  const runs = (await ask('GET', '/cellar', 200)).runs.filter((run) => run.left > 0);
  await told([{ act: 'take', run: `#${runs[0].number}`, count: '1', cause: 'opened', person: 'Bo', words: 'for supper' }]);
  await told([{ act: 'label', run: runs[0].run, name: 'Amber' }]);
  await told([{ act: 'package', from: 'Amber', container: 'bottle_330_heavy', count: '6', run: 'TRY-1', limit: '10 bar', acknowledge: 'a trial', store: '20 C', priming: '2 g/L', location: 'shelf' }]);
  const packaged = await told([{ act: 'package', from: 'Amber', container: 'bottle_330_heavy', count: '6', priming: '9 g/L' }]);
  assert.equal(packaged.objection.kind, 'impossible');
  const last = (await ask('GET', '/entries?most=1', 200)).entries[0];
  await told([{ act: 'void', entry: 'last', reason: 'a trial' }]);
  await told([{ act: 'void', entry: `#${last.number}` }]);
  await told([{ act: 'correct', entry: `#${last.number}`, reason: 'again', instead: (await ask('GET', `/entries/${last.number}`, 200)).act }]);
  const findings = (await ask('GET', '/findings', 200)).findings;
  for (const finding of findings) await told([{ act: 'acknowledge', run: finding.run, words: 'told everybody' }]);
  if (findings.length === 0) await told([{ act: 'acknowledge', run: runs[0].run, words: 'nothing stands' }], 409);
});

test('gear is told with what it touched and what may ride on it', async () => {
  const own = demoBook(folder, 'gear.undercroft');
  const side = await Server.start(own);
  assert.deepEqual((await ask('GET', '/gear', 200, undefined, side)).gear, []);
  const pull = { act: 'move', from: 'Amber', reason: 'pull', to: [{ vessel: 'Jar 23', volume: '2 L' }], gear: ['long hose'] };
  await ask('POST', '/sittings', 201, { key: newKey(), acts: [pull] }, side);
  const told = await ask('GET', '/gear', 200, undefined, side);
  assert.deepEqual(told, command(['gear', '--book', own]));
  assert.deepEqual(told.gear.map((one) => [one.name, one.last_used]), [['long hose', k_day]]);
  assert.ok(told.gear[0].riders.length > 0, 'the cultures of a sour solera ride on it');
  assert.deepEqual((await ask('GET', '/gear?on=2026-01-01', 200, undefined, side)).gear, []);
  await ask('GET', '/gear?on=soon', 400, undefined, side);
  await side.stop();
});

// What the command line answers, and where the interface does. An act is booked by POST /sittings.
const k_route_of = {
  cellar: 'GET /cellar', due: 'GET /due', show: 'GET /holdings/{n}', gear: 'GET /gear', entries: 'GET /entries', age: 'GET /holdings/{n}/age',
  'trace back': 'GET /trace', 'trace forward': 'GET /trace', findings: 'GET /findings', check: 'GET /check', picture: 'GET /entries/{n}/picture',
  panel: 'GET /holdings/{n}/panel', gap: 'GET /holdings/{n}/gap', 'tasting-words': 'GET /tasting-words', 'plan tasting': 'POST /plan/tasting', 'plan blend': 'POST /plan/blend', 'plan finish': 'POST /plan/finish', 'plan quarter': 'POST /plan/quarter', 'plan trials': 'POST /plan/trials', learned: 'GET /learned', weigh: 'GET /holdings/{n}/weighing', recall: 'GET /recall', shelf: 'GET /shelf', dregs: 'GET /holdings/{n}/dregs', round: 'GET /round', gas: 'POST /gas', fruit: 'POST /fruit', change: 'POST /change', design: 'POST /design', remember: 'POST /remember',
  'print labels': 'GET /print/{what}', 'print necks': 'GET /print/{what}', 'print crowns': 'GET /print/{what}', 'print tags': 'GET /print/{what}', 'print tasting': 'GET /print/{what}',
  'print card': 'GET /print/{what}', 'print recall': 'GET /print/{what}', 'print letter': 'GET /print/{what}', 'print pages': 'GET /print/{what}',
  label: 'POST /labels', log: 'POST /jot/preview', backup: 'GET /backup', export: 'GET /export', import: 'POST /import',
  'import-csv': 'POST /import-csv', version: 'GET /book', sitting: 'POST /sittings',
};
// Beginning a file, the program itself, what takes something out for good, and files of this machine.
const k_command_line_only = ['init', 'demo', 'serve', 'help', 'forget', 'forget-picture', 'restore', 'from-pages', 'compare'];

test('every question of the command line has its route', () => {
  const listed = commandText(['help']).split('Acts joined by')[0].split('\n').slice(3);
  // A long name touches what is said of it.
  const sums = Object.keys(document.json.paths).filter((path) => path.startsWith('/calc/')).map((path) => `calc ${path.slice(6)}`);
  const nameOf = (line) => sums.find((sum) => line.startsWith(`  ${sum}`)) ?? line.slice(2, 17).trim();
  const commands = listed.filter((line) => /^ {2}\S/.test(line)).map(nameOf);
  assert.ok(commands.length > 50, `${commands}`);
  const k_acts = [
    'vessel', 'retire', 'end', 'split', 'lot', 'read', 'taste', 'loss', 'clean', 'confirm', 'note', 'remind', 'target', 'decide', 'settle', 'calibrate', 'logger',
    'pull', 'refill', 'top-up', 'rack', 'blend', 'pitch', 'treat', 'add', 'lift', 'package', 'acknowledge', 'take', 'draw', 'void', 'correct',
  ];
  for (const name of commands) {
    if (k_acts.includes(name) || k_command_line_only.includes(name)) continue;
    const [method, path] = (name.startsWith('calc ') ? `POST /calc/${name.slice(5)}` : (k_route_of[name] ?? '')).split(' ');
    assert.ok(document.json.paths[path]?.[method.toLowerCase()], `no route answers "${name}"`);
  }
});

test('what is wrong with an act is named by its place', async () => {
  const P = '/sittings/preview';
  await refusesForm(P, {}, 'acts');
  await refusesForm(P, { acts: [] }, 'acts');
  await refusesForm(P, { acts: 'read it' }, 'acts');
  await refusesForm(P, { acts: [{}] }, 'acts[0].act');
  await refusesForm(P, { acts: [{ act: 'brew' }] }, 'acts[0].act');
  await refusesForm(P, { acts: [{ act: 'reading', subject: '#1', gravity: 1.008 }] }, 'acts[0].gravity');
  await refusesForm(P, { acts: [{ act: 'reading', subject: '#1', grvity: '1.008' }] }, 'acts[0].grvity');
  await refusesForm(P, { acts: [{ act: 'reading', gravity: '1.008' }] }, 'acts[0].subject');
  await refusesForm(P, { acts: [{ act: 'move', from: '#1', to: [] }] }, 'acts[0].to');
  await refusesForm(P, { acts: [{ act: 'move', from: '#1', to: [{ vessel: '#2', volume: 3 }] }] }, 'acts[0].to[0].volume');
  await refusesForm(P, { acts: [{ act: 'move', from: '#1', reason: 'drink', to: [{ vessel: '#2' }] }] }, 'acts[0].reason');
  await refusesForm(P, { acts: [{ act: 'loss', vessel: '#1', volume: '1 L', cause: 'thirst' }] }, 'acts[0].cause');
  await refusesForm(P, { acts: [{ act: 'correct', entry: '#9', instead: { act: 'void', entry: '#8' } }] }, 'acts[0].instead.act');
  await refusesForm(P, { acts: [{ act: 'tasting', subject: '#1', scores: ['sour=6', 4] }] }, 'acts[0].scores[1]');
  await refusesForm(P, { when: 3, acts: [{ act: 'note', words: 'x' }] }, 'when');
  await refusesForm('/sittings', { acts: [{ act: 'note', words: 'x' }] }, 'key');
  await refusesForm('/sittings', { key: 'today', acts: [{ act: 'note', words: 'x' }] }, 'key');
  await refusesForm('/sittings', { key: newKey(), acts: [{ act: 'note', words: 'x' }], expected: { sequence: 1, touched: [{ number: 1 }] } }, 'expected.touched[0].name');
});

test('what the book does not take is told in its words', async () => {
  const told = async (act, status) => (await ask('POST', '/sittings/preview', status, { acts: [act] })).error;
  assert.equal((await told({ act: 'reading', subject: '#1', gravity: '3.4' }, 400)).kind, 'bad_input');
  assert.equal((await told({ act: 'reading', subject: 'Nobody', gravity: '1.008' }, 404)).kind, 'not_found');
  assert.equal((await told({ act: 'loss', vessel: '#1', volume: '900 L', cause: 'spill' }, 409)).kind, 'impossible');
  assert.equal((await told({ act: 'reading', subject: '#1', gravity: '8 Brix' }, 422)).kind, 'outside_model');
  await ask('POST', '/sittings', 409, { key: newKey(), acts: [{ act: 'loss', vessel: '#1', volume: '900 L', cause: 'spill' }] });
  assert.equal((await told({ act: 'reading', subject: '#999999', gravity: '1.008' }, 404)).kind, 'not_found');
});

test('a jotted line becomes acts that can be booked', async () => {
  const jotted = await ask('POST', '/jot/preview', 200, { line: 'Amber 1.008 pH 3.42 18 C; pulled 2 L to Jar 23; tasted sour 6, lemon', taster: 'Ines', by: 'Ines' });
  assert.deepEqual(jotted.acts.map((act) => act.act), ['reading', 'move', 'tasting']);
  const again = await ask('POST', '/sittings/preview', 200, { acts: jotted.acts, by: 'Ines' });
  assert.deepEqual(again.changes, jotted.changes);
  const about = await ask('POST', '/jot/preview', 200, { line: '1.007 pH 3.4; tasted sour 5', subject: '#1' });
  assert.equal(about.acts[0].subject, 'The Amber');
  await ask('POST', '/jot/preview', 400, { line: 'Amber 18' });
  await ask('POST', '/jot/preview', 404, { line: '1.007', subject: '#999999' });
  await refusesForm('/jot/preview', {}, 'line');
});

test('gas, fruit, labels and changes are those of the command line', async () => {
  const book = join(folder, 'kiln-lane.undercroft');
  const run = (await ask('GET', '/cellar', 200)).runs.find((one) => one.run === 'AMB-3') ?? (await ask('GET', '/cellar', 200)).runs[0];
  assert.deepEqual(await ask('POST', '/gas', 200, { beer: run.run }), command(['gas', run.run, '--book', book]));
  await ask('POST', '/gas', 200, { container: 'bottle_sparkling_750', gravity: '1.006', original_gravity: '1.048', cultures: ['mixed sour culture'] });
  await ask('POST', '/gas', 400, { beer: 'Amber' });
  await ask('POST', '/gas', 404, { beer: 'Nobody', container: 'bottle_sparkling_750' });
  assert.deepEqual(await ask('POST', '/fruit', 200, { fruit: 'plum', mass: '3 kg', beer: 'Jar 12' }), command(['fruit', 'plum', '3 kg', '--beer', 'Jar 12', '--book', book]));
  await ask('POST', '/fruit', 404, { fruit: 'moonfruit', mass: '3 kg', beer: 'Jar 12' });
  await refusesForm('/fruit', { fruit: 'plum' }, 'mass');
  assert.deepEqual(await ask('POST', '/change', 200, { vessel: 'Amber', share: 'a quarter', turns: '4' }), command(['change', 'Amber', '--share', 'a quarter', '--turns', '4', '--book', book]));
  await ask('POST', '/change', 400, { vessel: 'Amber', share: 'much' });
  const label = await ask('POST', '/labels', 200, { run: run.run, name: 'Amber' });
  assert.equal(label.kept, false);
  await ask('POST', '/labels', 404, { run: 'NO-1' });
});

test('an old solera that is remembered comes in by its acts', async () => {
  const own = await Server.start(emptyBook(folder, 'remember.undercroft'));
  await ask('POST', '/sittings', 201, { key: newKey(), acts: [{ act: 'vessel', name: 'Barrel', capacity: '55 L', role: 'solera' }] }, own);
  const told = await ask('POST', '/remember', 200, { vessel: 'Barrel', founded: '2014', share: 'a third', every: '8 months', gravity: '1.004', original_gravity: '1.048' }, own);
  assert.equal(told.sitting.booked, false);
  const booked = await ask('POST', '/sittings', 201, { key: newKey(), ...told.drafted }, own);
  assert.deepEqual(booked.changes, told.sitting.changes);
  await ask('POST', '/remember', 404, { vessel: 'Cask', founded: '2014' }, own);
  await refusesForm('/remember', { vessel: 'Barrel', keep: true }, 'keep');
  const design = await ask('POST', '/design/draft', 200, { demand: '60 L', age: '3 years', draft: '1', name: 'New row', original_gravity: '1.048' }, own);
  await ask('POST', '/sittings', 201, { key: newKey(), ...design.drafted }, own);
  await refusesForm('/design/draft', { demand: '60 L', age: '3 years' }, 'draft');
  await own.stop();
});

test('designs and the ages of a solera are worked out without a book', async () => {
  assert.deepEqual(await ask('POST', '/design', 200, { demand: '60 L', age: '3 years', wait: '6 years' }), command(['design', '--demand', '60 L', '--age', '3 years', '--wait', '6 years']));
  await ask('POST', '/design', 400, { demand: 'much', age: '3 years' });
  await ask('POST', '/design', 409, { demand: '90000 L', age: '3 years' });
  const solera = { vessels: ['60 L', '60 L'], pull: '20 L', every: '1 year' };
  const told = command(['calc', 'solera', '--vessel', '60 L', '--vessel', '60 L', '--pull', '20 L', '--every', '1 year']);
  assert.deepEqual(await ask('POST', '/age-sums', 200, solera), told);
  assert.deepEqual(await ask('POST', '/calc/solera', 200, solera), told);
  await ask('POST', '/age-sums', 400, { vessels: ['60 gal'], pull: '20 L', every: '1 year' });
  await ask('POST', '/age-sums', 200, { vessels: ['60 gal'], pull: '20 L', every: '1 year', gallons: 'us' });
});

test('every sum of chemistry is that of the command line', async () => {
  const sums = [
    ['ph', { lactic: '5 g/L', acetic: '0.4 g/L', buffer: '1', wort_ph: '4.4', alcohol: '6 %', no_activity: true }],
    ['acids', { ph: '3.4', ta: '6.2 g/L', alcohol: '6 %' }],
    ['dose', { acid: 'lactic', volume: '20 L', ph: '3.7', ta: '4.5 g/L', to_ta: '6 g/L' }],
    ['blend', { part: ['20 L, ph 3.3, ta 7', '10 L, ph 4.2, ta 2.1, alcohol 6'] }],
    ['carbonation', { co2: '2.4 vol', temperature: '6 C' }],
    ['pressure', { co2: '3 vol', head_space: '4 %', temperature: '30 C', gravity: '1.006' }],
    ['dissolved', { warmest: '20 C', coolest: '8 C', malic: '1.2 g/L' }],
    ['priming', { co2: '2.6 vol', volume: '18 L', warmest: '20 C', fill: '330 mL', wort: '1.048', wort_ends: '1.010', ph: '3.3' }],
    ['alcohol', { og: '1.052', gravity: '1.008' }],
    ['gravity', { gravity: '1.046', read_at: '28 C' }],
    ['mix', { part: ['20 L, gravity 1.006, alcohol 6', '4 L'] }],
    ['colour', { malt: ['4 kg, ebc 6', '0.3 kg, ebc 150'], volume: '22 L' }],
    ['extraction', { what: 'vanilla', dose: '0.8 g/L', wanted: '3', tasted: ['5 days, 2'] }],
    ['trial', { added: '0.4 mL', strength: '50 g/L', volume: '20 L', liked: ['0.2 g/L, 7', '0.1 g/L, 4'] }],
    ['threshold', { of: ['acetic acid, 0.7 g/L', 'ethyl acetate, 40 mg/L'] }],
    ['tasting-test', { kind: 'triangle', tasters: '24', correct: '15' }],
    ['bitterness', { hop: '30 g, alpha 5, minutes 60', volume: '20 L' }],
  ];
  for (const [sum, fields] of sums) {
    const words = ['calc', sum];
    for (const [name, value] of Object.entries(fields)) {
      if (name === 'acid' || name === 'kind' || name === 'what' || (sum === 'gravity' && name === 'gravity')) words.push(value);
      else if (value === true) words.push(`--${name.replaceAll('_', '-')}`);
      else for (const one of [value].flat()) words.push(`--${name.replaceAll('_', '-')}`, one);
    }
    assert.deepEqual(await ask('POST', `/calc/${sum}`, 200, fields), command(words), sum);
    await refusesForm(`/calc/${sum}`, { ...fields, weather: 'fine' }, 'weather');
  }
  await ask('POST', '/calc/fruit', 200, { fruit: 'plum', mass: '3 kg', volume: '18 L', gravity: '1.008', alcohol: '5.9' });
  await ask('POST', '/calc/gas', 200, { container: 'bottle_sparkling_750', gravity: '1.006', original_gravity: '1.048', cultures: ['mixed sour culture'] });
  await ask('POST', '/calc/ph', 400, { lactic: 'much' });
  const strange = await server.post('/calc/weather', {});
  assert.deepEqual([strange.status, strange.json.error.kind], [404, 'not_found']);
});

test('a design tells how far it is while it is searched', async () => {
  const answer = await server.request('POST', '/api/v1/design', { body: { demand: '60 L', age: '3 years' }, headers: { Accept: 'text/event-stream' } });
  document.hold('POST', '/design', answer);
  const events = answer.raw.toString().trim().split('\n\n').map((event) => {
    const [name, data] = event.split('\n');
    return [name.slice('event: '.length), JSON.parse(data.slice('data: '.length))];
  });
  assert.ok(events.length > 2);
  assert.deepEqual(new Set(events.slice(0, -1).map(([name]) => name)), new Set(['progress']));
  for (const [, progress] of events.slice(0, -1)) assert.ok(progress.done < progress.of);
  assert.equal(events.at(-1)[0], 'answer');
  assert.deepEqual(events.at(-1)[1], (await server.post('/design', { demand: '60 L', age: '3 years' })).json);
  const wrong = await server.request('POST', '/api/v1/design', { body: { demand: 'much', age: '3 years' }, headers: { Accept: 'text/event-stream' } });
  assert.match(wrong.raw.toString(), /^event: error\ndata: \{"error":/);
});

test('a book goes out whole, as lines and as a file, and comes back', async () => {
  const exported = await server.get('/export');
  document.hold('GET', '/export', exported);
  assert.match(exported.headers['content-disposition'], /filename="kiln-lane-2026-03-14\.jsonl"/);
  const own = await Server.start(emptyBook(folder, 'import.undercroft'));
  const lines = (path, of) => of.request('POST', `/api/v1${path}`, { body: exported.raw, type: 'application/jsonl' });
  const hold = async (path, status) => {
    const answer = await lines(path, own);
    document.hold('POST', path, answer);
    assert.equal(answer.status, status, answer.raw.toString().slice(0, 300));
    return answer.json;
  };
  // An invented cellar does not come into a book that is kept.
  await hold('/import/preview', 409);
  const demo = await lines('/import/preview?cellar=demo&from_copy=true', own);
  document.hold('POST', '/import/preview', demo);
  const backup = await server.get('/backup');
  document.hold('GET', '/backup', backup);
  assert.equal(backup.raw.subarray(0, 15).toString(), 'SQLite format 3');
  const broken = await own.request('POST', '/api/v1/import', { body: 'no export', type: 'application/jsonl' });
  document.hold('POST', '/import', broken);
  assert.equal(broken.status, 400);
  await own.stop();
});

test('another book comes in, once', async () => {
  const one = await Server.start(emptyBook(folder, 'one.undercroft'));
  const other = await Server.start(emptyBook(folder, 'other.undercroft', '8'));
  await ask('POST', '/sittings', 201, { key: newKey(), acts: [{ act: 'vessel', name: 'Far jar', capacity: '10 L' }] }, other);
  const lines = (await other.get('/export')).raw;
  const bring = async (path, status) => {
    const answer = await one.request('POST', `/api/v1${path}`, { body: lines, type: 'application/jsonl' });
    document.hold('POST', path, answer);
    assert.equal(answer.status, status, answer.raw.toString());
    return answer.json;
  };
  assert.equal((await bring('/import/preview?renames=Far+jar%3DNear+jar', 200)).booked, false);
  assert.equal((await bring('/import?renames=Far+jar%3DNear+jar', 201)).came_in[0].name, 'Near jar');
  assert.equal((await bring('/import', 200)).already, true);
  assert.equal((await ask('GET', '/cellar', 200, undefined, one)).vessels[0].name, 'Near jar');
  await bring('/import?from_copy=perhaps', 400);
  await one.stop();
  await other.stop();
});

test('a spreadsheet comes in, once', async () => {
  const sheet = { text: 'Datum,SG\n2026-02-01,"1,0071"\n2026-02-09,"1,0069"\n', map: ['Datum=date,SG=gravity'], vessel: 'Amber', by: 'Ines' };
  assert.equal((await ask('POST', '/import-csv/preview', 200, sheet)).booked, false);
  assert.equal((await ask('POST', '/import-csv', 201, sheet)).readings, 2);
  assert.equal((await ask('POST', '/import-csv', 200, sheet)).already, 2);
  await ask('POST', '/import-csv/preview', 400, { ...sheet, text: 'Datum,SG\nsome day,1.007\n' });
  await refusesForm('/import-csv/preview', { map: [] }, 'text');
});

test('what no route answers', async () => {
  for (const [method, path, status] of [['GET', '/nothing', 404], ['DELETE', '/book', 405], ['GET', '/sittings', 405], ['POST', '/cellar', 405]]) {
    const answer = await server.request(method, `/api/v1${path}`);
    assert.equal(answer.status, status, path);
    assert.ok(answer.json.error.what.length > 0);
    if (status === 405) assert.ok(answer.headers.allow.length > 0);
  }
  const head = await server.request('HEAD', '/api/v1/book');
  assert.deepEqual([head.status, head.raw.length], [200, 0]);
  assert.ok(Number(head.headers['content-length']) > 50);
  for (const type of ['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data; boundary=x']) {
    const answer = await server.request('POST', '/api/v1/sittings/preview', { body: '{}', type });
    document.hold('POST', '/sittings/preview', answer);
    assert.equal(answer.status, 415);
  }
  for (const body of ['', '{', '[1,2', '{"acts":[],}', '{"acts":[],"acts":[]}', '\u00ff\u0000', '[]', '"x"', '1e999']) {
    const answer = await server.request('POST', '/api/v1/sittings/preview', { body });
    document.hold('POST', '/sittings/preview', answer);
    assert.equal(answer.status, 400, body);
  }
});

test('every documented route was asked for', () => {
  assert.deepEqual(document.unasked(), []);
});
