import { describe, expect, test } from 'vitest';
import type { GasAnswer } from '../api/answers';
import { barAt, barAtStore, coldEnough, pressureBand, pressurePoints, pressureTop } from './pressure';

function gas(limit: number | null, allowed: number, bars: number[]): GasAnswer {
  return {
    subject: '',
    container: 'bottle',
    verdict: 'wait',
    verdict_words: '',
    reasons: [],
    gas: [],
    total_volumes: 2,
    total_g_per_l: 4,
    pressure: [],
    total_gauge_bar: 2,
    store_c: 25,
    limit_bar: limit,
    allowed_bar: allowed,
    limit_needed_bar: 5,
    by_temperature: bars.map((gauge_bar, i) => ({ celsius: i * 10, gauge_bar })),
    spread: null,
    cautions: [],
  };
}

describe('how warm a store may be', () => {
  test('it is read off where the curve meets what is allowed', () => {
    expect(coldEnough(gas(5, 4, [2, 3, 5, 8]))).toEqual({ kind: 'up_to', celsius: 15 });
  });
  test('a container that nobody rated is never cold enough', () => {
    expect(coldEnough(gas(null, 0, [0.1, 0.2, 0.3]))).toEqual({ kind: 'unrated' });
  });
  test('too much at the cold end is said, and so is little enough at the warm end', () => {
    expect(coldEnough(gas(5, 4, [4.1, 5, 6]))).toEqual({ kind: 'never' });
    expect(coldEnough(gas(5, 4, [1, 2, 4]))).toEqual({ kind: 'always' });
  });
});

describe('single bottles', () => {
  const band = (low: number, mid: number, high: number) => ({ low, mid, high });
  const drawn = (warmest: number | null): GasAnswer => ({
    ...gas(5, 4, [3, 4, 6]),
    spread: {
      words: '',
      volumes: band(1, 2, 3),
      causes: [],
      by_temperature: [
        { celsius: 10, gauge_bar: band(1, 2, 3.5) },
        { celsius: 0, gauge_bar: band(1, 1.5, 2.5) },
        { celsius: 20, gauge_bar: band(2, 3, 4.5) },
      ],
      at_store: band(2, 3, 4.8),
      over_limit: 0.01,
      warmest_safe_c: warmest,
      carbonated_from_days: null,
      carbonated_until_days: null,
    },
  });
  test('the line is what 95 in 100 stay within, not the bound of all causes', () => {
    expect(pressurePoints(drawn(15)).map((p) => p.bar)).toEqual([2.5, 3.5, 4.5]);
    expect(barAtStore(drawn(15))).toBe(4.8);
    expect(barAtStore(gas(5, 4, [3]))).toBe(2);
  });
  test('the band is in the order of the temperature, and there is none without a spread', () => {
    expect(pressureBand(drawn(15)).map((p) => p.low)).toEqual([1, 1, 2]);
    expect(pressureBand(gas(5, 4, [3]))).toEqual([]);
  });
  test('the warmest store is the one the program worked out', () => {
    expect(coldEnough(drawn(15))).toEqual({ kind: 'up_to', celsius: 15 });
    expect(coldEnough(drawn(null))).toEqual({ kind: 'never' });
    expect(coldEnough(drawn(20))).toEqual({ kind: 'always' });
  });
});

describe('the curve', () => {
  test('it is read between its points and not beyond them', () => {
    const points = pressurePoints(gas(5, 4, [2, 3, 5]));
    expect(barAt(points, 5)).toBeCloseTo(2.5, 12);
    expect(barAt(points, 20)).toBe(5);
    expect(barAt(points, 25)).toBeNull();
    expect(barAt(points, -1)).toBeNull();
  });
  test('its points are in the order of the temperature, however they came', () => {
    const answer = gas(5, 4, [2, 3, 5]);
    answer.by_temperature.reverse();
    expect(pressurePoints(answer).map((p) => p.celsius)).toEqual([0, 10, 20]);
  });
  test('the axis holds curve and limit', () => {
    expect(pressureTop(gas(12, 9.6, [2, 3, 5]))).toBeGreaterThan(12);
    expect(pressureTop(gas(null, 0, [2, 3, 9.7]))).toBeGreaterThan(9.7);
  });
});
