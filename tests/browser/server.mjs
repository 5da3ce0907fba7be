// The program itself, on a book of its own in a temporary folder, at a port of its own; the clock held still.
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const binary = process.env.UNDERCROFT_BINARY ?? join(here, '../../build/release/undercroft');
export const k_today = '2026-11-02';
const environment = { ...process.env, UNDERCROFT_NOW: `${k_today}T12:00:00.000Z` };
const k_patience_ms = 20_000;

export function undercroft(...words) {
  return execFileSync(binary, words, { env: environment, encoding: 'utf8' });
}

class Server {
  constructor(folder, book) {
    this.folder = folder;
    this.book = book;
    this.port = 0;
    this.process = null;
  }

  get address() {
    return `http://127.0.0.1:${this.port}`;
  }

  async start() {
    this.process = spawn(binary, ['serve', '--book', this.book, '--port', String(this.port)], { env: environment, stdio: ['ignore', 'pipe', 'pipe'] });
    this.process.stderr.on('data', () => {});
    const line = await new Promise((resolve, reject) => {
      let said = '';
      const timer = setTimeout(() => reject(new Error(`serve said nothing in ${k_patience_ms} ms`)), k_patience_ms);
      this.process.stdout.on('data', (data) => {
        said += data;
        if (said.includes('\n')) {
          clearTimeout(timer);
          resolve(said.split('\n')[0]);
        }
      });
      this.process.once('exit', (code) => {
        clearTimeout(timer);
        reject(new Error(`serve ended with ${code}: ${said}`));
      });
    });
    this.port = Number(new URL(line.trim()).port);
    return this;
  }

  // As the power going: nothing is said to it.
  kill() {
    return this.#end('SIGKILL');
  }

  async stop() {
    await this.#end('SIGTERM');
    rmSync(this.folder, { recursive: true, force: true });
  }

  #end(signal) {
    const process = this.process;
    if (!process || process.exitCode !== null || process.signalCode !== null) return Promise.resolve();
    const ended = new Promise((resolve) => process.once('exit', resolve));
    process.kill(signal);
    return ended;
  }

  async ask(path) {
    const answer = await fetch(`${this.address}/api/v1${path}`);
    if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
    return answer.json();
  }

  async book_sitting(body) {
    const answer = await fetch(`${this.address}/api/v1/sittings`, { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body) });
    if (!answer.ok) throw new Error(`sittings: ${answer.status} ${await answer.text()}`);
    return answer.json();
  }
}

function folder() {
  return mkdtempSync(join(tmpdir(), 'undercroft-browser-'));
}

export async function serveDemo() {
  const made = folder();
  const book = join(made, 'demo.undercroft');
  undercroft('demo', '--as-of', k_today, '--book', book);
  return new Server(made, book).start();
}

export async function serveEmpty() {
  const made = folder();
  const book = join(made, 'empty.undercroft');
  undercroft('--book', book, 'init', '--name', 'Test vault', '--zone', 'Europe/Lisbon');
  return new Server(made, book).start();
}
