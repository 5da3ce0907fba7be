import { describe, expect, it } from 'vitest';
import { k_usual } from '../settings/settings.svelte';
import { litresTyped, plato, roundSpread, show, showWords, typedUnit, volumeForField, withUnit } from './show';

const american = { ...k_usual, volume: 'US gal', temperature: 'F', gravity: 'P', mass: 'oz', pressure: 'psi', gas: 'g/L' } as const;

describe('a number with its spread', () => {
  it('has as many decimals as its spread, and the spread two figures at most', () => {
    expect(showWords(show(53.17, 'L', k_usual, { sd: 0.31 }))).toBe('53.2 ± 0.3 L');
    expect(showWords(show(1.005, 'SG', k_usual, { sd: 0.00025 }))).toBe('1.0050 ± 0.0003 SG');
    expect(showWords(show(11.29, 'IBU', k_usual, { sd: 2 }))).toBe('11 ± 2 IBU');
    expect(roundSpread(0.14)).toEqual({ text: '0.14', decimals: 2 });
    expect(roundSpread(12)).toEqual({ text: '12', decimals: 0 });
    expect(roundSpread(0.5)).toEqual({ text: '0.5', decimals: 1 });
  });

  it('is written as it was read down where there is no spread', () => {
    expect(showWords(show('1.0050', 'SG', k_usual))).toBe('1.0050 SG');
    expect(showWords(show('14.0', 'C', k_usual))).toBe('14.0 °C');
    expect(showWords(show('3.46', 'pH', k_usual))).toBe('3.46');
    expect(showWords(show('55.8', 'L', k_usual))).toBe('55.8 L');
    expect(showWords(show('592.512597', 'L', k_usual))).toBe('592.5 L');
    expect(showWords(show('0.33', 'L', k_usual))).toBe('0.330 L');
    expect(showWords(show('0', 'L', k_usual))).toBe('0.0 L');
  });
});

describe('units of the keeper', () => {
  // NIST SP 811, appendix B.8: 1 US gal = 3.785412 L, 1 oz = 28.34952 g, 1 psi = 6.894757 kPa.
  it('convert by their definitions', () => {
    expect(show(3.785411784, 'L', american).number).toBe('1.000');
    expect(show(18, 'L', american)).toEqual({ number: '4.76', spread: '', unit: 'US gal' });
    expect(show(20, 'C', american).number).toBe('68');
    expect(show(2, 'C', american, { sd: 0.5 }).spread).toBe('0.9'); // a difference has no offset
    expect(show(1, 'bar', american, { decimals: 2 }).number).toBe('15');
    expect(show(28.349523125, 'g', american).number).toBe('1.00');
  });

  // ASBC Methods of Analysis, table 1 (from memory): 1.040 is 9.99, 1.048 is 11.91, 1.060 is 14.74 °P.
  it('give degrees Plato as the table does', () => {
    expect(plato(1.04)).toBeCloseTo(9.99, 1);
    expect(plato(1.048)).toBeCloseTo(11.91, 1);
    expect(plato(1.06)).toBeCloseTo(14.74, 1);
    expect(show(1.048, 'SG', american)).toEqual({ number: '11.9', spread: '', unit: '°P' });
  });
});

describe('what is typed', () => {
  it('gets the unit of its field only when it is a bare number', () => {
    expect(withUnit('18', 'L')).toBe('18 L');
    expect(withUnit(' 4,75 ', 'US gal')).toBe('4,75 US gal');
    expect(withUnit('a third', 'L')).toBe('a third');
    expect(withUnit('500 mL', 'L')).toBe('500 mL');
    expect(withUnit('1.048', typedUnit('gravity', k_usual))).toBe('1.048');
    expect(withUnit('12', typedUnit('gravity', american))).toBe('12 P');
    expect(withUnit('', 'L')).toBe('');
  });

  it('is understood in litres as far as the page can tell', () => {
    expect(litresTyped('18', k_usual)).toBe(18);
    expect(litresTyped('500 mL', k_usual)).toBe(0.5);
    expect(litresTyped('4,5 L', american)).toBe(4.5);
    expect(litresTyped('1', american)).toBeCloseTo(3.785, 3);
    expect(litresTyped('a third', k_usual)).toBeNull();
    expect(volumeForField(18, american)).toBe('4.76');
    expect(volumeForField(18, k_usual)).toBe('18');
  });
});
