import { describe, expect, it } from 'vitest';
import { address, Client, Fault, NoConnection, readEvent } from './client';

const answer = (status: number, body: unknown, type = 'application/json') =>
  (async () => new Response(typeof body === 'string' ? body : JSON.stringify(body), { status, headers: { 'Content-Type': type } })) as typeof fetch;

describe('asking the API', () => {
  it('names the cellar only where it is the demo', () => {
    expect(address('/cellar', 'own')).toBe('/api/v1/cellar');
    expect(address('/entries', 'demo', { subject: '#1', most: undefined })).toBe('/api/v1/entries?subject=%231&cellar=demo');
  });

  it('tells every sequence it hears, and a silence', async () => {
    const heard: unknown[] = [];
    const client = new Client(answer(200, { book: { sequence: 7 } }));
    client.onHeard((h) => heard.push(h));
    await client.get('/cellar', 'own');
    const silent = new Client((async () => {
      throw new TypeError('Failed to fetch');
    }) as typeof fetch);
    silent.onHeard((h) => heard.push(h));
    await expect(silent.get('/cellar', 'own')).rejects.toBeInstanceOf(NoConnection);
    expect(heard).toEqual([
      { connected: true, sequence: 7, cellar: 'own' },
      { connected: false, cellar: 'own' },
    ]);
  });

  it('makes a refusal a fault with its facts', async () => {
    const error = { kind: 'impossible', where: 'The Amber', what: 'The Amber does not hold that much.', facts: [{ label: 'short by', value: '2.2 L' }], next_step: 'Take less.' };
    const fault = await new Client(answer(409, { error })).post('/sittings', 'own', {}).catch((f: unknown) => f);
    expect(fault).toBeInstanceOf(Fault);
    expect(fault).toMatchObject({ status: 409, kind: 'impossible', body: error, sitting: null });
  });

  it('takes an answer that is no JSON for no answer', async () => {
    await expect(new Client(answer(502, '<html>', 'text/html')).get('/cellar', 'own')).rejects.toBeInstanceOf(NoConnection);
  });

  it('reads events, with progress before the answer', async () => {
    const events = 'event: progress\ndata: {"done":1,"of":2,"words":"trying"}\n\nevent: answer\ndata: {"reached":\ndata: true}\n\n';
    const steps: unknown[] = [];
    const told = await new Client(answer(200, events, 'text/event-stream')).stream('/design', 'own', {}, (s) => steps.push(s), new AbortController().signal);
    expect(steps).toEqual([{ done: 1, of: 2, words: 'trying' }]);
    expect(told).toEqual({ reached: true });
    expect(readEvent(': remark\ndata: a\ndata: b')).toEqual({ name: 'message', data: 'a\nb' });
  });

  it('says so when the events break off', async () => {
    const broken = new Client(answer(200, 'event: progress\ndata: {"done":1,"of":2,"words":"x"}\n\n', 'text/event-stream'));
    await expect(broken.stream('/design', 'own', {}, () => {}, new AbortController().signal)).rejects.toBeInstanceOf(NoConnection);
  });
});
