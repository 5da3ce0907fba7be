import { describe, expect, it } from 'vitest';
import type { Vessel } from '../../api/types';
import { baysOf, storeysOf } from './bays';

const vessel = (number: number, name: string, role: string, litres: number, location: string, material = 'steel') =>
  ({ number, name, role, material, location, capacity: { value: String(litres), unit: 'L' } }) as Vessel;

const cellar = [
  vessel(1, 'The Amber', 'solera', 60, 'north vault'),
  vessel(10, 'Old Peat Row', 'solera', 110, 'north vault', 'oak'),
  vessel(22, 'Stair 1', 'solera', 30, 'stair', 'glass'),
  vessel(23, 'Stair 2', 'solera', 30, 'stair', 'glass'),
  vessel(2, 'Jar 5', 'finishing', 5.5, 'north vault', 'glass'),
  vessel(5, 'Keg 1', 'serving', 20, 'stair'),
];

describe('bays', () => {
  it('give a solera its own, a chain of like ones a stair, and the rest of a place one together', () => {
    const bays = baysOf(cellar);
    expect(bays.map((b) => [b.title, b.place])).toEqual([
      ['The Amber', 'north vault'],
      ['Old Peat Row', 'north vault'],
      ['Finishing', 'north vault'],
      ['Stair', 'stair'],
      ['Kegs', 'stair'],
    ]);
    expect(bays[3]!.standing.map((s) => s.step)).toEqual([1, 0]); // the first stage stands highest
  });

  it('stand in one row where that can be read, else in storeys by place', () => {
    const bays = baysOf(cellar);
    expect(storeysOf(bays, 1600)).toHaveLength(1);
    const storeys = storeysOf(bays, 760);
    expect(storeys.map((s) => s.place)).toEqual(['north vault', 'stair']);
    expect(storeys.every((s) => s.scale >= 25)).toBe(true);
  });

  it('of an empty cellar are none', () => {
    expect(baysOf([])).toEqual([]);
  });
});
