import { expect, test } from 'vitest';
import { termFigure } from './terms';

const term = (value: number, unit: string) => ({ name: '', value, unit, how: '', source: '' });

test('a row of a sum shows the figures its unit is worth', () => {
  expect(termFigure(term(1.0047932954, 'SG')).text).toBe('1.0048');
  expect(termFigure(term(5.789, '% vol')).text).toBe('5.8');
  expect(termFigure(term(376.5144, 'g')).text).toBe('377');
  expect(termFigure(term(2010.9, 'ppm')).text).toBe('2011');
});

test('what is little never reads as none', () => {
  expect(termFigure(term(0.0044071, 'vol')).text).toBe('0.0044');
  expect(termFigure(term(0.0123, 'g/L')).text).toBe('0.012');
  expect(termFigure(term(0, 'vol')).text).toBe('0.00');
});
