// Asks the API. Every refusal is a Fault a keeper can act on; no answer at all is a NoConnection.
import type { FaultBody, SittingAnswer } from './types';

export const k_api = '/api/v1';
const k_patience_ms = 30_000;

export type WhichCellar = 'own' | 'demo';

export class Fault extends Error {
  constructor(
    readonly status: number,
    readonly body: FaultBody,
    // With a stale sitting: what it would do on the book as it is now.
    readonly sitting: SittingAnswer | null = null,
  ) {
    super(body.what);
  }
  get kind() {
    return this.body.kind;
  }
}

export class NoConnection extends Error {}

export type Query = Record<string, string | number | string[] | undefined>;

export function address(path: string, cellar: WhichCellar, query: Query = {}): string {
  const search = new URLSearchParams();
  for (const [name, value] of Object.entries(query)) {
    if (Array.isArray(value)) for (const one of value) search.append(name, one);
    else if (value !== undefined && value !== '') search.set(name, String(value));
  }
  if (cellar === 'demo') search.set('cellar', 'demo');
  const words = search.toString();
  return `${k_api}${path}${words ? `?${words}` : ''}`;
}

type Listener = (answer: { sequence?: number; connected: boolean; cellar: WhichCellar }) => void;

export class Client {
  #heard: Listener[] = [];

  constructor(private readonly ask: typeof fetch = (...args) => fetch(...args)) {}

  // Told after every answer, and after every silence.
  onHeard(listener: Listener) {
    this.#heard.push(listener);
  }

  get<T>(path: string, cellar: WhichCellar, query: Query = {}, signal?: AbortSignal): Promise<T> {
    return this.#send<T>(address(path, cellar, query), cellar, { method: 'GET' }, signal);
  }

  post<T>(path: string, cellar: WhichCellar, body: unknown, signal?: AbortSignal): Promise<T> {
    return this.#send<T>(
      address(path, cellar),
      cellar,
      { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body) },
      signal,
    );
  }

  // A file as it is, with the type the program wants it in.
  postFile<T>(path: string, cellar: WhichCellar, text: string, type: string, query: Query = {}): Promise<T> {
    return this.#send<T>(address(path, cellar, query), cellar, { method: 'POST', headers: { 'Content-Type': type }, body: text });
  }

  // The bytes of a file that is no JSON.
  async file(path: string, cellar: WhichCellar, query: Query = {}): Promise<Blob> {
    const answer = await this.#fetch(address(path, cellar, query), cellar, { method: 'GET', signal: AbortSignal.timeout(k_patience_ms) });
    return answer.ok ? answer.blob() : this.#read<Blob>(answer, cellar);
  }

  // Long work: tells how far it is, and ends when the signal is given.
  async stream<T>(
    path: string,
    cellar: WhichCellar,
    body: unknown,
    progress: (step: { done: number; of: number; words: string }) => void,
    signal: AbortSignal,
  ): Promise<T> {
    const answer = await this.#fetch(address(path, cellar), cellar, {
      method: 'POST',
      headers: { 'Content-Type': 'application/json', Accept: 'text/event-stream' },
      body: JSON.stringify(body),
      signal,
    });
    if (!answer.headers.get('Content-Type')?.startsWith('text/event-stream') || !answer.body) {
      return this.#read<T>(answer, cellar);
    }
    const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
    let held = '';
    for (;;) {
      const { value, done } = await reader.read();
      if (done) throw new NoConnection('The answer broke off.');
      held += value.replaceAll('\r\n', '\n');
      const events = held.split('\n\n');
      held = events.pop() ?? '';
      for (const event of events) {
        const { name, data } = readEvent(event);
        if (name === 'progress') progress(JSON.parse(data));
        if (name === 'answer') return JSON.parse(data) as T;
        if (name === 'error') {
          const held_body = JSON.parse(data);
          throw new Fault(422, held_body.error ?? held_body);
        }
      }
    }
  }

  async #send<T>(url: string, cellar: WhichCellar, init: RequestInit, signal?: AbortSignal): Promise<T> {
    const patience = AbortSignal.timeout(k_patience_ms);
    const answer = await this.#fetch(url, cellar, { ...init, signal: signal ? either(signal, patience) : patience });
    return this.#read<T>(answer, cellar);
  }

  async #fetch(url: string, cellar: WhichCellar, init: RequestInit): Promise<Response> {
    try {
      return await this.ask(url, { ...init, credentials: 'same-origin', cache: 'no-store' });
    } catch (why) {
      if (why instanceof DOMException && why.name === 'AbortError') throw why;
      this.#tell({ connected: false, cellar });
      throw new NoConnection('The program does not answer.');
    }
  }

  async #read<T>(answer: Response, cellar: WhichCellar): Promise<T> {
    let body: unknown;
    try {
      body = await answer.json();
    } catch (why) {
      if (why instanceof DOMException && why.name === 'AbortError') throw why;
      // A broken-off answer and one that is not the program's are the same to a keeper.
      this.#tell({ connected: false, cellar });
      throw new NoConnection('The answer could not be read.');
    }
    const held = body as { book?: { sequence?: number }; error?: FaultBody; sitting?: SittingAnswer };
    this.#tell({ connected: true, sequence: answer.ok ? held.book?.sequence : undefined, cellar });
    if (!answer.ok) {
      throw new Fault(
        answer.status,
        held.error ?? { kind: 'storage', where: '', what: `The program answered ${answer.status}.`, facts: [], next_step: '' },
        held.sitting ?? null,
      );
    }
    return body as T;
  }

  #tell(what: Parameters<Listener>[0]) {
    for (const listener of this.#heard) listener(what);
  }
}

function either(a: AbortSignal, b: AbortSignal): AbortSignal {
  const both = new AbortController();
  for (const signal of [a, b]) {
    if (signal.aborted) both.abort(signal.reason);
    else signal.addEventListener('abort', () => both.abort(signal.reason), { once: true });
  }
  return both.signal;
}

// One server-sent event (WHATWG HTML, section 9.2.6): its name and its data lines.
export function readEvent(text: string): { name: string; data: string } {
  let name = 'message';
  const data: string[] = [];
  for (const line of text.split('\n')) {
    const [field, rest] = [line.slice(0, line.indexOf(':')), line.slice(line.indexOf(':') + 1).replace(/^ /, '')];
    if (field === 'event') name = rest;
    if (field === 'data') data.push(rest);
  }
  return { name, data: data.join('\n') };
}

export const client = new Client();
