import { describe, expect, it } from 'vitest';
import { readPlace, writePlace } from './paths';

describe('addresses', () => {
  it('name a room, what follows it, and which cellar', () => {
    expect(readPlace('/', '')).toMatchObject({ room: 'cellar', parts: [], number: null, cellar: 'own' });
    expect(readPlace('/vessel/12', '')).toMatchObject({ room: 'vessel', parts: ['12'], number: 12 });
    expect(readPlace('/sitting/pull/1', '?cellar=demo')).toMatchObject({ room: 'sitting', parts: ['pull', '1'], number: 1, cellar: 'demo' });
    expect(readPlace('/book', '?subject=%231&words=plum')).toMatchObject({ query: { subject: '#1', words: 'plum' } });
  });

  it('take nothing for a number that is none, and never fail', () => {
    expect(readPlace('/vessel/0', '').number).toBeNull();
    expect(readPlace('/vessel/-3', '').number).toBeNull();
    expect(readPlace('/vessel/99999999999999', '').number).toBeNull();
    expect(readPlace('/vessel/%E0%A4%A', '').parts).toEqual(['%E0%A4%A']);
  });

  it('come back as they were, and the demo cellar stays the demo cellar', () => {
    expect(writePlace('/vessel/12', 'own')).toBe('/vessel/12');
    expect(writePlace('/vessel/12', 'demo')).toBe('/vessel/12?cellar=demo');
    const href = writePlace('/book', 'demo', { subject: '#1', words: '', most: 20 });
    const [path, search] = href.split('?');
    expect(readPlace(path ?? '', `?${search}`)).toMatchObject({ room: 'book', cellar: 'demo', query: { subject: '#1', most: '20' } });
  });
});
