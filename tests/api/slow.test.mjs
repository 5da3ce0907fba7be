// A body that is waited for: beside limits.test.mjs, because each waits out a limit of the program.
import assert from 'node:assert/strict';
import { after } from 'node:test';
import { before, demoBook, makeFolder, Server, test, untilClosed } from './server.mjs';

let server;

before(async () => {
  server = await Server.start(demoBook(makeFolder()));
});
after(() => server.stop());

test('a body that does not come is given up', { timeout: 40_000 }, async () => {
  const socket = await server.connect();
  const answer = untilClosed(socket);
  socket.write(
    `POST /api/v1/gas HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nContent-Type: application/json\r\nContent-Length: 500\r\n\r\n{"beer":`,
  );
  assert.equal((await server.get('/book')).status, 200);
  assert.match(await answer, /^HTTP\/1\.1 408 /);
});
