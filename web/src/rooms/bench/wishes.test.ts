import { expect, test } from 'vitest';
import { wishBody, wishText } from './wishes';

const row = (figure: string, low: string, high: string, must = false, weight = '') => ({ figure, low, high, must, weight });

test('a row is said as it would be typed', () => {
  expect(wishText(row('ph', '3.4', '3.5'))).toBe('ph 3.4 to 3.5');
  expect(wishText(row('ta', '', ' 7 '))).toBe('ta at most 7');
  expect(wishText(row('sour', '4', ''))).toBe('sour at least 4');
  expect(wishText(row('ta', '6', '6', false, '2'))).toBe('ta 6 weight 2');
  expect(wishText(row('', '6', '6'))).toBe('');
  expect(wishText(row('ta', '', ''))).toBe('');
});

test('what is wished and what must be stand apart, and empty rows are left out', () => {
  expect(wishBody([row('ph', '3.4', '3.5'), row('alcohol', '', '7', true), row('ta', '', '')])).toEqual({ wants: ['ph 3.4 to 3.5'], musts: ['alcohol at most 7'] });
  expect(wishBody([])).toEqual({});
});
