// The real program on a port of its own, with books in a folder that goes away afterwards.
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import http from 'node:http';
import net from 'node:net';
import { after, before as before_all, test as one_test } from 'node:test';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const k_binary =
  process.env.UNDERCROFT_BINARY ?? fileURLToPath(new URL('../../build/release/undercroft', import.meta.url));

// The clock of most tests, and the day the demo cellar is laid for.
export const k_day = '2026-03-14';
export const k_now = `${k_day}T18:00:00.000Z`;

// Time holds still and chance can be had again, unless a test says otherwise.
const k_still = { UNDERCROFT_NOW: k_now, UNDERCROFT_SEED: '7' };

// A test ends by itself: what has no limit of its own has this one. A program built with sanitizers is several times slower.
const k_limit = { timeout: 120_000 };
export const test = (name, options, body) =>
  body === undefined ? one_test(name, k_limit, options) : one_test(name, { ...k_limit, ...options }, body);
export const before = (body) => before_all(body, k_limit);

// A server that does not end when it is asked to is ended.
const k_patience_ms = 30_000;

// A test that fails before it stops its server would keep the runner waiting for that server for ever.
const running = new Set();
after(() => running.forEach((child) => child.kill('SIGKILL')));

process.setMaxListeners(0); // a hand for every server

export function makeFolder() {
  const folder = mkdtempSync(join(tmpdir(), 'undercroft-api-'));
  process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

// The command line: what it prints.
export function commandText(words) {
  return execFileSync(k_binary, words, { env: { ...process.env, ...k_still } }).toString();
}

// The command line: its JSON answer.
export function command(words, { input = '', env = {} } = {}) {
  const out = execFileSync(k_binary, [...words, '--json'], { input, env: { ...process.env, ...k_still, ...env } });
  return JSON.parse(out.toString());
}

export function demoBook(folder, name = 'kiln-lane.undercroft') {
  const book = join(folder, name);
  command(['demo', '--as-of', k_day, '--book', book]);
  return book;
}

export function emptyBook(folder, name = 'empty.undercroft', seed = '7') {
  const book = join(folder, name);
  command(['init', '--name', 'Fen Row', '--zone', 'Europe/Lisbon', '--book', book], { env: { UNDERCROFT_SEED: seed } });
  return book;
}

export class Server {
  constructor(process, url) {
    this.process = process;
    this.url = url;
    this.port = Number(new URL(url).port);
    this.ended = new Promise((resolve) => process.on('exit', (code, signal) => resolve({ code, signal })));
  }

  static async start(book, { env = {}, port = 0 } = {}) {
    const child = spawn(k_binary, ['serve', '--book', book, '--port', String(port)], {
      env: { ...process.env, ...k_still, ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    running.add(child);
    child.on('exit', () => running.delete(child));
    process.on('exit', () => child.kill('SIGKILL'));
    let complaints = '';
    child.stderr.on('data', (bytes) => (complaints += bytes));
    const url = await new Promise((resolve, reject) => {
      let said = '';
      child.stdout.on('data', (bytes) => {
        said += bytes;
        if (said.includes('\n')) resolve(said.split('\n')[0]);
      });
      child.on('exit', (code) => reject(new Error(`it ended with ${code} before it served: ${complaints}`)));
    });
    const server = new Server(child, url);
    server.complaints = () => complaints;
    return server;
  }

  async stop(signal = 'SIGINT') {
    this.process.kill(signal);
    const late = setTimeout(() => this.process.kill('SIGKILL'), k_patience_ms);
    const how = await this.ended;
    clearTimeout(late);
    return how;
  }

  // One request on a connection of its own. `body`: an object goes as JSON, a string as it is.
  request(method, path, { body, type, headers = {}, agent = false } = {}) {
    const bytes = body === undefined ? undefined : typeof body === 'string' || Buffer.isBuffer(body) ? body : JSON.stringify(body);
    const sent = { ...headers };
    if (bytes !== undefined) {
      sent['Content-Type'] ??= type ?? 'application/json';
      sent['Content-Length'] ??= Buffer.byteLength(bytes);
    }
    return new Promise((resolve, reject) => {
      const request = http.request({ host: '127.0.0.1', port: this.port, method, path, headers: sent, agent }, (answer) => {
        const pieces = [];
        answer.on('data', (piece) => pieces.push(piece));
        answer.on('error', reject);
        answer.on('end', () => {
          const raw = Buffer.concat(pieces);
          const kind = answer.headers['content-type'] ?? '';
          resolve({
            status: answer.statusCode,
            headers: answer.headers,
            raw,
            json: kind === 'application/json' && raw.length > 0 ? JSON.parse(raw.toString()) : undefined,
          });
        });
      });
      request.on('error', reject);
      request.end(bytes);
    });
  }

  get(path) {
    return this.request('GET', `/api/v1${path}`);
  }

  post(path, body) {
    return this.request('POST', `/api/v1${path}`, { body });
  }

  // A bare connection, for what no HTTP library sends.
  connect() {
    return new Promise((resolve, reject) => {
      const socket = net.connect(this.port, '127.0.0.1', () => resolve(socket));
      socket.on('error', reject);
    });
  }
}

// All that comes on a connection until it is closed.
export function untilClosed(socket) {
  return new Promise((resolve) => {
    const pieces = [];
    socket.on('data', (piece) => pieces.push(piece));
    socket.on('error', () => {});
    socket.on('close', () => resolve(Buffer.concat(pieces).toString()));
  });
}

// A sitting key as a device would make it: a UUID of version 7 (RFC 9562).
let counter = 0;
export function newKey() {
  counter += 1;
  const tail = `${process.pid.toString(16).padStart(4, '0')}${counter.toString(16).padStart(8, '0')}`.slice(-12).padStart(12, '0');
  return `019ceef0-0000-7000-8000-${tail}`;
}

export const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));
