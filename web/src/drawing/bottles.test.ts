import { describe, expect, test } from 'vitest';
import { bottleEnds, bottleWords } from './bottles';

describe('bottle ends', () => {
  test('each bottle of a small run has its own end, those here first', () => {
    const { each, ends } = bottleEnds(5, 3);
    expect(each).toBe(1);
    expect(ends.map((e) => e.here)).toEqual([1, 1, 1, 0, 0]);
  });
  test('over 120 bottles an end is a case of twelve, the last one as short as it is', () => {
    const { each, ends } = bottleEnds(130, 20);
    expect(each).toBe(12);
    expect(ends).toHaveLength(11);
    expect(ends.at(-1)?.of).toBe(10);
    expect(ends.slice(0, 3).map((e) => e.here)).toEqual([12, 8, 0]);
  });
  test('no bottle is drawn twice and none is left out', () => {
    for (const [count, left] of [[0, 0], [1, 1], [120, 7], [121, 121], [480, 333]] as const) {
      const { ends } = bottleEnds(count, left);
      expect(ends.reduce((sum, e) => sum + e.of, 0)).toBe(count);
      expect(ends.reduce((sum, e) => sum + e.here, 0)).toBe(left);
    }
  });
  test('what left is said by its cause', () => {
    expect(bottleWords(32, 27, { opened: 3, given: 2, sold: 0 })).toBe('27 of 32 here: 3 opened, 2 given');
    expect(bottleWords(32, 32, {})).toBe('32 of 32 here');
  });
});
