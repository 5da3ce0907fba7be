// Who may come in, and what every answer carries.
import assert from 'node:assert/strict';
import { after } from 'node:test';
import { before, demoBook, makeFolder, Server, test, untilClosed } from './server.mjs';

const folder = makeFolder();
let server;

before(async () => {
  server = await Server.start(demoBook(folder));
});
after(() => server.stop());

async function raw(text) {
  const socket = await server.connect();
  const answer = untilClosed(socket);
  socket.write(text);
  return answer;
}

test('it listens on this machine only', async () => {
  assert.match(server.url, /^http:\/\/127\.0\.0\.1:\d+$/);
});

test('a foreign host is turned away, so that no name can be made to point here', async () => {
  for (const host of ['evil.example', `evil.example:${server.port}`, '127.0.0.1', `127.0.0.1:${server.port + 1}`, `127.0.0.1.evil.example:${server.port}`, `localhost.evil:${server.port}`]) {
    const answer = await server.request('GET', '/api/v1/book', { headers: { Host: host } });
    assert.deepEqual([answer.status, answer.json.error.where], [403, 'Host'], host);
    assert.equal((await server.request('GET', '/', { headers: { Host: host } })).status, 403);
  }
  for (const host of [`127.0.0.1:${server.port}`, `localhost:${server.port}`, `LOCALHOST:${server.port}`, `[::1]:${server.port}`])
    assert.equal((await server.request('GET', '/api/v1/book', { headers: { Host: host } })).status, 200, host);
  assert.match(await raw('GET /api/v1/book HTTP/1.0\r\n\r\n'), /^HTTP\/1\.1 403/);
});

test('a foreign page is turned away, whatever it asks', async () => {
  const book = { acts: [{ act: 'note', words: 'from elsewhere' }], key: '019ce000-0000-7000-8000-000000000001' };
  for (const origin of ['https://evil.example', 'null', `https://127.0.0.1:${server.port}`, `http://127.0.0.1:${server.port + 1}`, 'http://127.0.0.1', 'file://']) {
    assert.equal((await server.request('GET', '/api/v1/book', { headers: { Origin: origin } })).status, 403, origin);
    assert.equal((await server.request('POST', '/api/v1/sittings', { body: book, headers: { Origin: origin } })).status, 403, origin);
  }
  for (const origin of [`http://127.0.0.1:${server.port}`, `http://localhost:${server.port}`])
    assert.equal((await server.request('GET', '/api/v1/book', { headers: { Origin: origin } })).status, 200, origin);
  // What a form of another page could send without being asked is not taken.
  const form = await server.request('POST', '/api/v1/sittings', { body: JSON.stringify(book), type: 'text/plain' });
  assert.equal(form.status, 415);
  assert.equal((await server.get('/entries?words=elsewhere')).json.entries.length, 0);
});

test('a path that climbs is refused', async () => {
  for (const path of ['/../etc/passwd', '/%2e%2e/etc/passwd', '/assets/../../secret', '/assets/%2e%2e%2fsecret', '/api/v1/../../x', '/a//b', '/a\\..\\b', '/a%5c..%5cb', '/a%00b', '/%zz', '/a/%2E/b'])
    assert.equal((await server.request('GET', path)).status, 400, path);
  assert.match(await raw(`GET http://elsewhere/ HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nConnection: close\r\n\r\n`), /^HTTP\/1\.1 400/);
  assert.equal((await server.request('GET', '/secret.txt')).status, 404);
});

test('every answer says what the page may do and keeps nothing', async () => {
  for (const path of ['/api/v1/book', '/', '/api/v1/nothing', '/vessel/1']) {
    const { headers } = await server.request('GET', path);
    assert.match(headers['content-security-policy'], /default-src 'none'; script-src 'self';/);
    assert.doesNotMatch(headers['content-security-policy'], /unsafe|\*/);
    assert.equal(headers['x-content-type-options'], 'nosniff');
    assert.equal(headers['referrer-policy'], 'no-referrer');
    assert.match(headers['cache-control'], path.startsWith('/api') ? /no-store/ : /no-cache/);
    assert.equal(headers['access-control-allow-origin'], undefined);
  }
});

test('what is no HTTP is told so', async () => {
  assert.match(await raw('hello\r\n\r\n'), /^HTTP\/1\.1 400/);
  assert.match(await raw(`GET /${'x'.repeat(20000)} HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\n\r\n`), /^HTTP\/1\.1 431/);
  assert.match(await raw(`POST /api/v1/gas HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\nnonsense\r\n`), /^HTTP\/1\.1 400/);
  assert.equal((await server.get('/book')).status, 200);
});

test('several requests on one connection are answered in their order', async () => {
  const one = (path) => `GET /api/v1/${path} HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\n\r\n`;
  const last = one('entries?most=1').replace('\r\n\r\n', '\r\nConnection: close\r\n\r\n');
  const answer = await raw(one('book') + one('tables') + one('nothing') + last);
  assert.deepEqual(answer.match(/HTTP\/1\.1 \d+/g), ['HTTP/1.1 200', 'HTTP/1.1 200', 'HTTP/1.1 404', 'HTTP/1.1 200']);
  assert.ok(answer.indexOf('"fruits"') < answer.indexOf('"not_found"'));
});
