// What the server does with bodies that are too large and clients that are too slow, for bench/serve_load.sh.
//   node bench/serve_trouble.mjs URL PROCESS_ID
// Prints figures; exit code 1 when one was answered other than it should be, or others had to wait a second.
import { readFileSync } from 'node:fs';
import http from 'node:http';
import net from 'node:net';

const { hostname, port } = new URL(process.argv[2]);
const memory_mb = () => Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${process.argv[3]}/status`, 'utf8'))[1]) / 1024;
const since = (began) => `${((performance.now() - began) / 1000).toFixed(2)} s`;
let wrong = 0;

function open(text) {
  return new Promise((resolve) => {
    const socket = net.connect(port, hostname, () => (socket.write(text), resolve(socket)));
    socket.said = '';
    socket.on('data', (bytes) => (socket.said += bytes));
    socket.on('error', () => {});
    socket.gone = new Promise((gone) => socket.on('close', gone));
  });
}

function told(what, socket, expected) {
  const status = socket.said.slice(9, 12) || 'no answer';
  if (status !== expected) wrong = 1;
  console.log(`figure: ${what}: ${status}`);
}

// The longest that somebody else waits for an answer, until `done` is.
async function longestWait(done) {
  let waiting = true;
  done.then(() => (waiting = false));
  let longest = 0;
  while (waiting) {
    const began = performance.now();
    await new Promise((resolve, reject) => http.get({ hostname, port, path: '/api/v1/book' }, (answer) => answer.resume().on('end', resolve)).on('error', reject));
    longest = Math.max(longest, performance.now() - began);
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  if (longest > 1000) wrong = 1;
  return `others waited ${longest.toFixed(0)} ms at most`;
}

const head = (path, rest) => `POST /api/v1${path} HTTP/1.1\r\nHost: ${hostname}:${port}\r\nContent-Type: application/json\r\n${rest}\r\n\r\n`;
const before = memory_mb();
for (const [what, rest, wrap] of [
  ['announced', `Content-Length: ${100 << 20}`, (bytes) => bytes],
  ['in pieces', 'Transfer-Encoding: chunked', (bytes) => Buffer.concat([Buffer.from('100000\r\n'), bytes, Buffer.from('\r\n')])],
]) {
  const piece = wrap(Buffer.alloc(1 << 20, 0x20));
  const began = performance.now();
  const socket = await open(head('/sittings', rest));
  const waits = longestWait(socket.gone);
  for (let i = 0; i < 100 && socket.writable; ++i)
    if (!socket.write(piece)) await Promise.race([socket.gone, new Promise((resolve) => socket.once('drain', resolve))]);
  socket.end();
  await socket.gone;
  told(`body of 100 MB, ${what}, ${since(began)}, ${await waits}, memory ${(memory_mb() - before).toFixed(1)} MB more`, socket, '413');
}

for (const [what, text] of [
  ['head sent by one byte a half second', `GET /api/v1/book HTTP/1.1\r\nHost: ${hostname}:${port}\r\nX: `],
  ['body sent by one byte a half second', head('/gas', 'Content-Length: 5000') + '{'],
]) {
  const began = performance.now();
  const socket = await open(text);
  const drip = setInterval(() => socket.writable && socket.write('x'), 500);
  const waits = await longestWait(socket.gone);
  clearInterval(drip);
  told(`${what}, dropped after ${since(began)}, ${waits}`, socket, '408');
}

// Asks for what is long, and reads nothing of it.
const began = performance.now();
const deaf = await open('');
deaf.pause();
for (let i = 0; i < 200; ++i) deaf.write(`GET /api/v1/cellar HTTP/1.1\r\nHost: ${hostname}:${port}\r\n\r\n`);
const waits = await longestWait(new Promise((resolve) => setTimeout(resolve, 5000)));
console.log(`figure: 200 cellars asked for and not read for ${since(began)}: ${waits}, memory ${(memory_mb() - before).toFixed(1)} MB more`);
deaf.destroy();
process.exitCode = wrong;
