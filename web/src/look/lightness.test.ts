import { describe, expect, it } from 'vitest';
import { hatchFill, hatchOf } from './hatch';
import { agePercent, ageHex, agesSheet } from './lightness';

describe('age to lightness', () => {
  it('is pale when young, half way after 2.2 years, and never quite black', () => {
    expect(agePercent(0)).toBe(0);
    expect(agePercent(-1)).toBe(0);
    expect(agePercent(2.2)).toBe(50);
    expect(agePercent(4.4)).toBe(75);
    expect(agePercent(100)).toBe(100);
  });

  it('ends in the two colours of the scheme, and darkens in both', () => {
    expect(ageHex(0, 'light')).toBe('#fbf7ea');
    expect(ageHex(100, 'light')).toBe('#2b2620');
    expect(ageHex(0, 'dark')).toBe('#f0ecdf');
    expect(ageHex(100, 'dark')).toBe('#2c363b');
    for (const scheme of ['light', 'dark'] as const) {
      const greens = Array.from({ length: 101 }, (_, p) => parseInt(ageHex(p, scheme).slice(3, 5), 16));
      expect(greens.every((g, i) => i === 0 || g <= greens[i - 1]!)).toBe(true);
    }
  });

  it('is kept as a style sheet', async () => {
    await expect(agesSheet()).toMatchFileSnapshot('./ages.css');
  });
});

describe('hatches', () => {
  it('differ between neighbours in book order and come round after seven', () => {
    expect([0, 1, 2, 3, 4, 5, 6].map(hatchOf)).toEqual([0, 1, 2, 3, 4, 5, 6]);
    expect(hatchOf(7)).toBe(0);
    expect(hatchOf(13)).toBe(6);
  });

  it('are dark on young liquid and pale on old', () => {
    expect(hatchFill(0, 1)).toBeNull();
    expect(hatchFill(3, 1)).toBe('url(#hatch-3-young)');
    expect(hatchFill(3, 5)).toBe('url(#hatch-3-old)');
  });
});
