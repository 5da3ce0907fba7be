import { describe, expect, test } from 'vitest';
import { withUnit } from '../../units/show';
import { exampleOf, k_sums, sumBody } from './sums';

const sum = (id: string) => k_sums.find((s) => s.id === id)!;

describe('a sum as it is sent', () => {
  test('a bare number gets the unit of its field, and what says its own keeps it', () => {
    expect(sumBody(sum('carbonation'), { co2: '2.4', temperature: '43 F' }, withUnit)).toEqual({ co2: '2.4 vol', temperature: '43 F' });
  });
  test('several lines are a list, and what is empty is left out', () => {
    expect(sumBody(sum('mix'), { part: '20 L, gravity 1.006\n\n 4 L \n' }, withUnit)).toEqual({ part: ['20 L, gravity 1.006', '4 L'] });
    expect(sumBody(sum('mix'), { part: ' \n' }, withUnit)).toEqual({});
  });
  test('a tick is sent when it is set', () => {
    expect(sumBody(sum('gas'), { container: 'x', given_away: 'yes', stable: '' }, withUnit)).toEqual({ container: 'x', given_away: true });
  });
});

test('every sum begins with an example and names no field twice', () => {
  for (const one of k_sums) {
    expect(Object.keys(exampleOf(one)).length, one.id).toBeGreaterThan(0);
    expect(new Set(one.fields.map((f) => f.name)).size, one.id).toBe(one.fields.length);
  }
});
