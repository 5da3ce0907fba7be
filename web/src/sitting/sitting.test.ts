import { randomBytes } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { actSubject, actTitle, beginAct, formOf } from './begin';
import { cleanAct, emptyDraft, hasSomething, readDraft, sittingBody, stillOpen } from './draft';
import { sittingKey } from './key';
import { readTastingLine } from './tasting';

describe('a sitting key', () => {
  // RFC 9562, appendix A.6: time 0x017F22E279B0 (2022-02-22 19:22:22 UTC), rand_a CC3, rand_b 18C4DC0C0C07398F.
  it('is the UUID of version 7 of the standard’s example', () => {
    const random = Uint8Array.from([0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f]);
    expect(sittingKey(0x017f22e279b0, () => random)).toBe('017f22e2-79b0-7cc3-98c4-dc0c0c07398f');
  });

  it('sorts by when it was made, and differs within a millisecond', () => {
    const earlier = sittingKey(1_700_000_000_000, randomBytes);
    expect(earlier < sittingKey(1_700_000_000_001, randomBytes)).toBe(true);
    expect(new Set(Array.from({ length: 500 }, () => sittingKey(1_700_000_000_000, randomBytes))).size).toBe(500);
  });
});

describe('what a draft sends', () => {
  const draft = emptyDraft('017f22e2-79b0-7cc3-98c4-dc0c0c07398f', '');

  it('leaves out empty fields, the forms’ own memory, and forms nothing was typed into', () => {
    const acts = [
      { id: 1, act: { act: 'move', reason: 'pull', from: '#1', to: [{ vessel: '#4', volume: '18 L' }], loss: '' } },
      { id: 2, act: { act: 'reading', subject: '#1', gravity: ' 1.005 ', ph: '' } },
      { id: 3, act: { act: 'tasting', subject: '#1', taster: 'Ines', scores: [], words: '', _line: '' } },
    ];
    expect(sittingBody({ ...draft, acts })).toEqual({
      key: draft.key,
      acts: [
        { act: 'move', reason: 'pull', from: '#1', to: [{ vessel: '#4', volume: '18 L' }] },
        { act: 'reading', subject: '#1', gravity: '1.005' },
      ],
    });
  });

  it('says when, who, and what was seen', () => {
    const expected = { sequence: 432, touched: [{ number: 1, name: 'The Amber', held: { value: '55.8', unit: 'L' as const }, volume: { value: '55.8', unit: 'L' as const }, cultures: [] }] };
    const body = sittingBody({ ...draft, when: ' yesterday ', by: 'Ines', acts: [] }, expected);
    expect(body).toMatchObject({ when: 'yesterday', by: 'Ines', expected });
  });

  it('is asked for nothing while something is still open', () => {
    expect(stillOpen(cleanAct(beginAct('pull', 1)!))).toBe('into which vessel');
    expect(stillOpen({ act: 'move', reason: 'pull', from: '#1', to: [{ vessel: '#4', volume: '' }] })).toBe('how much');
    expect(stillOpen({ act: 'move', reason: 'pull', from: '#1', to: [{ vessel: '#4', volume: '18 L' }] })).toBe('');
    expect(stillOpen({ act: 'reading', subject: '#1', gravity: '1.005' })).toBe('');
    expect(stillOpen({ act: 'end', vessel: '#1' })).toBe('what becomes of its beer');
    expect(stillOpen({ act: 'end', vessel: '#1', dump: true })).toBe('');
    expect(hasSomething({ act: 'reading', subject: '#1' })).toBe(false);
    expect(hasSomething({ act: 'clean', vessel: '#1' })).toBe(true);
  });

  it('is read back from the device, and what is no draft is none', () => {
    const kept = { ...draft, book: 'Kiln Lane', acts: [{ id: 1, act: { act: 'note', words: 'cold' } }], unsent: { key: draft.key, acts: [{ act: 'note', words: 'cold' }] } };
    expect(readDraft(JSON.stringify(kept))).toEqual(kept);
    expect(readDraft(null)).toBeNull();
    expect(readDraft('{')).toBeNull();
    expect(readDraft('{"acts":[]}')).toBeNull();
    expect(readDraft(JSON.stringify({ key: 'k', acts: [{ nonsense: 1 }, { id: 2, act: { act: 'note' } }] }))?.acts).toHaveLength(1);
  });
});

describe('acts of an address', () => {
  it('begin with what they are about', () => {
    expect(beginAct('pull', 1)).toEqual({ act: 'move', reason: 'pull', from: '#1', to: [{ vessel: '', volume: '' }] });
    expect(beginAct('read', null)).toEqual({ act: 'reading', subject: '' });
    expect(beginAct('nonsense', 1)).toBeNull();
  });

  it('have a form and a title, and a blend is about where it goes', () => {
    expect(formOf(beginAct('top-up', 1)!)).toBe('refill');
    expect(formOf({ act: 'move', reason: 'refill' })).toBe('refill');
    expect(formOf(beginAct('blend', 3)!)).toBe('rack');
    expect(actSubject(beginAct('blend', 3)!)).toBe('#3');
    expect(actTitle(beginAct('taste', 1)!)).toBe('Taste');
  });
});

describe('a tasting in one line', () => {
  it('is scores, a liking and words', () => {
    expect(readTastingLine('sour 6, funk=5, liking 8, lemon, hay')).toEqual({ scores: ['sour=6', 'funk=5'], liking: '8', words: 'lemon, hay' });
    expect(readTastingLine('apricot again; nearly there')).toEqual({ scores: [], liking: '', words: 'apricot again, nearly there' });
  });

  it('takes no score beyond ten, and no number that belongs to words', () => {
    expect(readTastingLine('sour 16').words).toBe('sour 16');
    expect(readTastingLine('2 days open').words).toBe('2 days open');
    expect(readTastingLine('').scores).toEqual([]);
  });
});
