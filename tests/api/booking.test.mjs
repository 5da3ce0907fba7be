// A sitting is booked once, as it was shown, whatever happens meanwhile.
import assert from 'node:assert/strict';
import { openSync, closeSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { command, demoBook, emptyBook, makeFolder, newKey, pause, Server, test } from './server.mjs';

const folder = makeFolder();

const read = (gravity) => ({ act: 'reading', subject: 'Amber', gravity, sample: '80 mL' });
const pull = (volume, into = 'Jar 23') => ({ act: 'move', from: 'Amber', reason: 'pull', to: [{ vessel: into, volume }] });

async function shown(server, acts) {
  const view = (await server.post('/sittings/preview', { acts })).json;
  return { sequence: view.book.sequence, touched: view.touched };
}

async function entriesOf(server) {
  return (await server.get('/book')).json.book.sequence;
}

test('the same sitting again is answered as booked, and is there once', async () => {
  const server = await Server.start(demoBook(folder, 'again.undercroft'));
  const before = await entriesOf(server);
  const sitting = { key: newKey(), acts: [read('1.008'), pull('2 L')], expected: await shown(server, [read('1.008'), pull('2 L')]) };
  const first = await server.post('/sittings', sitting);
  assert.equal(first.status, 201);
  // At once, from many connections, and after others have booked.
  const again = await Promise.all(Array.from({ length: 8 }, () => server.post('/sittings', sitting)));
  await server.post('/sittings', { key: newKey(), acts: [pull('1 L')] });
  again.push(await server.post('/sittings', sitting));
  for (const answer of again) {
    assert.equal(answer.status, 200);
    assert.equal(answer.json.already, true);
    assert.deepEqual(answer.json.entries.map((one) => one.number), first.json.entries.map((one) => one.number));
  }
  assert.equal(await entriesOf(server), before + 3);
  const other = await server.post('/sittings', { ...sitting, acts: [read('1.007'), pull('2 L')] });
  assert.deepEqual([other.status, other.json.error.kind, other.json.error.where, other.json.sitting], [409, 'stale', 'key', undefined]);
  assert.equal(await entriesOf(server), before + 3);
  await server.stop();
});

test('a sitting sent by many at once is booked once', async () => {
  const server = await Server.start(demoBook(folder, 'many.undercroft'));
  const before = await entriesOf(server);
  const sitting = { key: newKey(), acts: [pull('2 L')] };
  const answers = await Promise.all(Array.from({ length: 12 }, () => server.post('/sittings', sitting)));
  assert.deepEqual(answers.map((one) => one.status).sort(), [...Array(11).fill(200), 201]);
  assert.equal(await entriesOf(server), before + 1);
  await server.stop();
});

test('a book that has moved on elsewhere takes the sitting, one where it was does not', async () => {
  const server = await Server.start(demoBook(folder, 'stale.undercroft'));
  const acts = [pull('2 L')];
  const expected = await shown(server, acts);
  // Another vessel: what was shown still holds.
  assert.equal((await server.post('/sittings', { key: newKey(), acts: [{ act: 'loss', vessel: 'Old Peat Row', volume: '1 L', cause: 'sample' }] })).status, 201);
  assert.equal((await server.post('/sittings', { key: newKey(), acts, expected })).status, 201);
  // The vessel itself: both are shown, and nothing is booked.
  const sequence = await entriesOf(server);
  const late = await server.post('/sittings', { key: newKey(), acts, expected });
  assert.deepEqual([late.status, late.json.error.kind, late.json.sitting.booked], [409, 'stale', false]);
  assert.equal(await entriesOf(server), sequence);
  assert.ok(late.json.error.facts.some((fact) => fact.label.startsWith('The Amber')));
  // What is shown now can be agreed to.
  const agreed = { sequence: late.json.sitting.book.sequence, touched: late.json.sitting.touched };
  assert.equal((await server.post('/sittings', { key: newKey(), acts, expected: agreed })).status, 201);
  // A culture that is suspected meanwhile is news too.
  const again = await shown(server, acts);
  await server.post('/sittings', { key: newKey(), acts: [{ act: 'pitch', vessel: 'Amber', kind: 'wild_unknown', name: 'Stranger', suspected: true }] });
  const changed = await server.post('/sittings', { key: newKey(), acts, expected: again });
  assert.deepEqual([changed.status, changed.json.error.kind], [409, 'stale']);
  await server.stop();
});

test('the command line books beside the server, and both know', async () => {
  const book = demoBook(folder, 'beside.undercroft');
  const server = await Server.start(book);
  const acts = [pull('2 L')];
  const expected = await shown(server, acts);
  command(['loss', 'Amber', '1 L', 'sample', '--when', 'yesterday', '--book', book], { env: { UNDERCROFT_SEED: '99' } });
  assert.equal((await server.get('/cellar')).json.vessels[0].volume.value, command(['show', 'Amber', '--book', book]).vessel.volume.value);
  assert.equal((await server.post('/sittings', { key: newKey(), acts, expected })).status, 409);
  assert.equal((await server.post('/sittings', { key: newKey(), acts })).status, 201);
  assert.equal(command(['check', '--book', book]).ok, true);
  await server.stop();
});

test('killed in the midst of booking, nothing acknowledged is lost and nothing is there twice', { timeout: 120_000 }, async () => {
  const book = emptyBook(folder, 'kill.undercroft');
  let server = await Server.start(book);
  await server.post('/sittings', { key: newKey(), acts: [{ act: 'vessel', name: 'Tub', capacity: '500 L' }] });
  const acknowledged = [];
  const sent = [];
  for (let round = 0; round < 6; ++round) {
    const load = Array.from({ length: 40 }, (_, i) => ({ key: newKey(), acts: [{ act: 'note', subject: 'Tub', words: `round ${round} note ${i}` }, { act: 'note', words: 'and its fellow' }] }));
    sent.push(...load);
    let killed = false;
    const kill = pause(5 + round * 17).then(() => ((killed = true), server.stop('SIGKILL')));
    for (const sitting of load) {
      if (killed) break;
      try {
        const answer = await server.post('/sittings', sitting);
        if (answer.status === 201) acknowledged.push(sitting.key);
      } catch {
        break; // the connection broke: nobody knows whether it was booked
      }
    }
    await kill;
    server = await Server.start(book);
    // Whoever is not sure sends it again.
    for (const sitting of load.slice(0, 3)) {
      const answer = await server.post('/sittings', sitting);
      assert.ok(answer.status === 200 || answer.status === 201, answer.raw.toString());
      if (answer.status === 201) assert.ok(!acknowledged.includes(sitting.key), 'an acknowledged sitting was lost');
      acknowledged.push(sitting.key);
    }
  }
  const entries = (await server.get('/entries?most=1000')).json.entries;
  const keys = entries.map((entry) => entry.key);
  assert.equal(new Set(keys).size, keys.length);
  for (const key of acknowledged) assert.equal(keys.filter((one) => one.startsWith(key)).length, 2, 'whole, once');
  for (const sitting of sent) assert.ok([0, 2].includes(keys.filter((one) => one.startsWith(sitting.key)).length), 'whole or not at all');
  assert.equal((await server.get('/check')).json.ok, true);
  await server.stop();
});

test('asked to stop, it answers what it was asked and leaves one file', { timeout: 60_000 }, async () => {
  for (const signal of ['SIGINT', 'SIGTERM']) {
    const book = demoBook(folder, `stop-${signal}.undercroft`);
    const server = await Server.start(book);
    const asked = [];
    for (let i = 0; i < 6; ++i) asked.push(server.get('/check'));
    asked.push(server.post('/sittings', { key: newKey(), acts: [pull('2 L')] }));
    asked.push(server.get('/cellar?cellar=demo'));
    await pause(60);
    const ended = server.stop(signal);
    const answers = await Promise.all(asked);
    assert.deepEqual(answers.map((one) => one.status), [...Array(6).fill(200), 201, 200]);
    assert.deepEqual(await ended, { code: 0, signal: null });
    await assert.rejects(server.get('/book'));
    const { readdirSync } = await import('node:fs');
    assert.deepEqual(readdirSync(folder).filter((name) => name.startsWith(`stop-${signal}`)), [`stop-${signal}.undercroft`]);
    assert.equal(command(['check', '--book', book]).ok, true);
  }
});

test('a newer book is answered and not written', async () => {
  const book = demoBook(folder, 'newer.undercroft');
  // The schema step of a later program: SQLite keeps the user version big-endian at byte 60 of the file (file format,
  // section 1.3 "The Database Header").
  const file = openSync(book, 'r+');
  writeSync(file, Buffer.from([0, 0, 3, 0xe8]), 0, 4, 60);
  closeSync(file);
  const server = await Server.start(book);
  assert.equal((await server.get('/book')).json.book.read_only, true);
  assert.equal((await server.get('/cellar')).status, 200);
  assert.equal((await server.post('/sittings/preview', { acts: [pull('2 L')] })).status, 200);
  const refused = await server.post('/sittings', { key: newKey(), acts: [pull('2 L')] });
  assert.deepEqual([refused.status, refused.json.error.kind], [403, 'read_only']);
  await server.stop();
});

test('a book that is not there is not begun', async () => {
  await assert.rejects(Server.start(join(folder, 'nothing.undercroft')), /ended with 3.*init/s);
  await assert.rejects(Server.start(demoBook(folder, 'port.undercroft'), { port: 99999 }), /ended with 2/);
  const server = await Server.start(demoBook(folder, 'taken.undercroft'));
  await assert.rejects(Server.start(demoBook(folder, 'other.undercroft'), { port: server.port }), /ended with 4/);
  await server.stop();
});
