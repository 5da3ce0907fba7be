// Too much, too slow, too many: nobody stands in anybody's way.
import assert from 'node:assert/strict';
import { after } from 'node:test';
import { before, demoBook, makeFolder, pause, Server, test, untilClosed } from './server.mjs';

const folder = makeFolder();
let server;

before(async () => {
  server = await Server.start(demoBook(folder));
});
after(() => server.stop());

const head = (path, length) =>
  `POST /api/v1${path} HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nContent-Type: application/json\r\nContent-Length: ${length}\r\n\r\n`;

test('a body of 100 MB is refused cleanly, whether it is announced or not', async () => {
  const piece = Buffer.alloc(1 << 20, 0x20);
  const send = async (first, pieces, wrap) => {
    const socket = await server.connect();
    const answer = untilClosed(socket);
    socket.write(first);
    for (let i = 0; i < pieces && socket.writable; ++i)
      if (!socket.write(wrap(piece))) await new Promise((resolve) => (socket.once('drain', resolve), socket.once('close', resolve)));
    socket.end();
    return answer;
  };
  for (const path of ['/sittings', '/calc/ph', '/import-csv']) {
    const announced = await send(head(path, 100 << 20), 100, (bytes) => bytes);
    assert.match(announced, /^HTTP\/1\.1 413 /, path);
    assert.match(announced, /"kind":"bad_input"/);
  }
  const chunked = head('/sittings', 0).replace('Content-Length: 0', 'Transfer-Encoding: chunked');
  const told = await send(chunked, 100, (bytes) => Buffer.concat([Buffer.from('100000\r\n'), bytes, Buffer.from('\r\n')]));
  assert.match(told, /^HTTP\/1\.1 413 /);
  // Nothing is sent to a question.
  const question = await server.request('GET', '/api/v1/book', { headers: { 'Content-Length': '5' }, body: 'hello' });
  assert.equal(question.status, 413);
  assert.equal((await server.get('/book')).status, 200);
});

test('who asks first is told to wait with a large body', async () => {
  const socket = await server.connect();
  const answer = untilClosed(socket);
  socket.write(head('/calc/ph', 100 << 20).replace('\r\n\r\n', '\r\nExpect: 100-continue\r\n\r\n'));
  assert.match(await answer, /^HTTP\/1\.1 413 /);
  const other = await server.connect();
  const told = untilClosed(other);
  other.write(head('/calc/alcohol', 32).replace('\r\n\r\n', '\r\nConnection: close\r\nExpect: 100-continue\r\n\r\n'));
  await pause(300);
  other.write('{"og":"1.052","gravity":"1.008"}');
  assert.match(await told, /^HTTP\/1\.1 100 Continue\r\n\r\nHTTP\/1\.1 200 /);
});

test('a hundred half-sent requests block nobody and are dropped', { timeout: 60_000 }, async (t) => {
  const sockets = [];
  t.after(() => sockets.forEach((socket) => socket.destroy()));
  for (let i = 0; i < 100; ++i) {
    const socket = await server.connect();
    socket.closed_after = untilClosed(socket);
    socket.write(`GET /api/v1/book HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nX-Slow: `);
    sockets.push(socket);
  }
  const began = Date.now();
  // A drop now and then does not keep them alive.
  const drip = setInterval(() => sockets.forEach((socket) => socket.writable && socket.write('x')), 500);
  t.after(() => clearInterval(drip));
  for (let i = 0; i < 20; ++i) assert.equal((await server.get('/book')).status, 200);
  assert.ok(Date.now() - began < 4000, 'others were answered meanwhile');
  const answers = await Promise.all(sockets.map((socket) => socket.closed_after));
  for (const answer of answers) assert.match(answer, /^(HTTP\/1\.1 408 |$)/);
  assert.ok(answers.some((answer) => answer.startsWith('HTTP/1.1 408 ')));
  assert.ok(Date.now() - began < 20_000, 'they were dropped');
});

test('a connection that says nothing is closed without a word', { timeout: 30_000 }, async () => {
  assert.equal(await untilClosed(await server.connect()), '');
});

test('who leaves before the answer costs nothing', async () => {
  for (let i = 0; i < 40; ++i) {
    const socket = await server.connect();
    socket.on('error', () => {});
    socket.write(`GET /api/v1/check HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\n\r\n`);
    if (i % 2) socket.destroy();
    else socket.end();
  }
  await pause(200);
  assert.equal((await server.get('/book')).status, 200);
});
