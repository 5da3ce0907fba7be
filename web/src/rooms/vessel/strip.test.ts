import { expect, test } from 'vitest';
import { strip } from './strip';

test('what lies inside the band is drawn inside it, and what lies outside, outside', () => {
  const inside = strip({ low: 5, high: 7, mean: 6, sd: 0.4 });
  expect(inside?.found).toBeCloseTo(50);
  expect(inside?.band[0]).toBeLessThan(inside?.spread[0] ?? 0 + 1);
  const above = strip({ low: 5, high: 7, mean: 9, sd: 0.5 });
  expect(above?.found).toBeGreaterThan(above?.band[1] ?? 100);
});

test('a band without an end reaches the edge, and what nobody knows has no strip', () => {
  expect(strip({ low: null, high: 7, mean: 6, sd: 0.5 })?.band[0]).toBe(0);
  expect(strip({ low: 5, high: null, mean: 6, sd: 0.5 })?.band[1]).toBe(100);
  expect(strip({ low: 5, high: 7, mean: null, sd: 0 })).toBeNull();
});
