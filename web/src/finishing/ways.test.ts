import { describe, expect, it } from 'vitest';
import { chanceWords, daysWords, moveWords, shownRows } from './ways';

const way = (technique: string) => ({ technique, moves: [] }) as unknown as Parameters<typeof shownRows>[0][number];

describe('ranked ways', () => {
  it('tell chances and days as people do', () => {
    expect(chanceWords(0.123)).toBe('12 %');
    expect(chanceWords(0.008)).toBe('0.8 %');
    expect(chanceWords(0)).toBe('0 %');
    expect(daysWords(0)).toBe('at once');
    expect(daysWords(14)).toBe('14 days');
    expect(daysWords(120)).toBe('3.9 months');
  });
  it('always show leaving it alone, with its own place', () => {
    const options = [...Array.from({ length: 20 }, (_, i) => way(`fruit_${i}`)), way('leave'), way('dilute_water')];
    const rows = shownRows(options, false);
    expect(rows.length).toBe(13);
    expect(rows.at(-1)).toMatchObject({ rank: 21, option: { technique: 'leave' } });
    expect(shownRows(options, true).length).toBe(22);
  });
  it('say what moves with its spread', () => {
    expect(moveWords([{ attribute: 'berry_cherry', points: -0.9, sd: 0.5 }])).toBe('berry cherry −0.9 ± 0.5');
  });
});
