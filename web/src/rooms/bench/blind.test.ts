import { expect, test, vi } from 'vitest';
import { foundLines, isComplete, keptRound, type Round } from './blind';

const round = (found: Round['found']): Round => ({ subjects: ['#1'], tasters: 'Ines', twice: [], set: 'K7', full: false, found });
const sheet = { taster: 'Ines', codes: ['417', '582'] };

test('a sheet is complete when every glass has a score or a fault', () => {
  const first = { scores: { sourness: '0' }, fault: '', words: '' };
  expect(isComplete(round({ 'Ines 417': first }), sheet)).toBe(false);
  expect(isComplete(round({ 'Ines 417': first, 'Ines 582': { scores: { sourness: '' }, fault: '', words: 'lemon' } }), sheet)).toBe(false);
  expect(isComplete(round({ 'Ines 417': first, 'Ines 582': { scores: {}, fault: 'mousy', words: '' } }), sheet)).toBe(true);
});

test('what was found is said as the program reads it, and an equals sign in words is no score', () => {
  const found = { 'Ines 417': { scores: { sourness: '6', body: '' }, fault: 'mousy', words: 'pH=3, lemon' }, 'Ines 582': { scores: { body: '4' }, fault: '', words: '' } };
  expect(foundLines(round(found), [sheet])).toEqual(['Ines 417 sourness=6 fault=mousy pH 3, lemon', 'Ines 582 body=4']);
});

test('a round is kept on the device', () => {
  const kept = new Map<string, string>();
  vi.stubGlobal('localStorage', { getItem: (key: string) => kept.get(key) ?? null, setItem: (key: string, text: string) => void kept.set(key, text) });
  const store = keptRound('kiln');
  store.write(round({}));
  expect(keptRound('kiln').read().set).toBe('K7');
  expect(keptRound('other').read().set).toBe('');
});
