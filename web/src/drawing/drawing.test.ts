import { describe, expect, it } from 'vitest';
import type { Age, River } from '../api/types';
import { bandPath, cutBand, riverLayout } from './river';
import { heightOfShare, shapeOf } from './shape';
import { partsOf, spreadLabels, strataLayout, stratumName } from './strata';

const age = (parts: [string, number, number][], others: [string, number][] = []): Age =>
  ({
    parts: parts.map(([name, share, age_years]) => ({ name, share, age_years, age_spread_years: 0, assumed: false })),
    others: others.map(([name, share]) => ({ name, kind: 'fruit', share })),
  }) as unknown as Age;

describe('the cut through a vessel', () => {
  const kinds = [
    ['solera', 'steel', 60],
    ['solera', 'glass', 30],
    ['solera', 'oak', 110],
    ['serving', 'steel', 19],
    ['finishing', 'plastic', 25],
  ] as const;

  it('holds half its area under the height of half, whatever its form', () => {
    for (const [role, material, litres] of kinds) {
      const shape = shapeOf(role, material, litres);
      const area = (upto: number) => {
        let sum = 0;
        const n = 2000;
        for (let i = 0; i < n; i++) sum += (shape.half(((i + 0.5) / n) * upto) * upto) / n;
        return sum;
      };
      for (const share of [0.1, 0.5, 0.9]) expect(area(heightOfShare(shape, share)) / area(shape.height)).toBeCloseTo(share, 2);
    }
  });

  it('is to scale: eight times the volume is twice as wide and twice as high', () => {
    for (const [role, material] of kinds) {
      const [small, large] = [shapeOf(role, material, 10), shapeOf(role, material, 80)];
      expect(large.height / small.height).toBeCloseTo(2, 6);
      expect(large.half_max / small.half_max).toBeCloseTo(2, 6);
    }
  });

  it('has a volume near what the vessel holds, where it is round', () => {
    for (const [role, material, litres] of [kinds[0], kinds[1], kinds[3], kinds[4]]) {
      const shape = shapeOf(role, material, litres);
      let volume = 0;
      for (let i = 0; i < 500; i++) volume += Math.PI * shape.half(((i + 0.5) / 500) * shape.height) ** 2 * (shape.height / 500);
      expect(volume / litres).toBeGreaterThan(0.8);
      expect(volume / litres).toBeLessThan(1.2);
    }
  });
});

describe('strata', () => {
  const shape = shapeOf('solera', 'steel', 60);

  it('lie oldest at the bottom, and what is no beer on top', () => {
    const parts = partsOf(age([['young', 0.5, 0.4], ['old', 0.5, 5]], [['sour cherry', 0.1]]));
    expect(parts.map((p) => p.name)).toEqual(['old', 'young', 'sour cherry']);
    expect(parts.map((p) => p.serial)).toEqual([0, 1, 2]);
    expect(parts.reduce((sum, p) => sum + p.share, 0)).toBeCloseTo(1, 12);
  });

  it('fill the vessel as high as it is full, each next on the one below', () => {
    const strata = strataLayout(shape, 30, 0.5, partsOf(age([['a', 0.6, 1], ['b', 0.3, 2], ['c', 0.1, 3]])));
    expect(strata.map((s) => stratumName(s))).toEqual(['c', 'b', 'a']);
    expect(strata[0]!.y0).toBe(0);
    expect(strata[1]!.y0).toBe(strata[0]!.y1);
    expect(strata.at(-1)!.y1).toBeCloseTo(heightOfShare(shape, 0.5) * 30, 6);
  });

  it('too thin to be seen are drawn as one, and none is lost', () => {
    const many = Array.from({ length: 40 }, (_, i): [string, number, number] => [`lot ${i}`, i === 0 ? 0.9 : 0.1 / 39, i]);
    const strata = strataLayout(shape, 10, 1, partsOf(age(many)));
    expect(strata.flatMap((s) => s.parts)).toHaveLength(40);
    expect(strata.length).toBeLessThan(40);
    expect(strata.reduce((sum, s) => sum + s.share, 0)).toBeCloseTo(1, 9);
    expect(strata[0]!.parts.length).toBeGreaterThan(1);
    expect(stratumName(strata[0]!)).toMatch(/^\d+ lots$/);
  });

  it('of an empty vessel are none', () => {
    expect(partsOf(null)).toEqual([]);
    expect(strataLayout(shape, 30, 0, partsOf(age([['a', 1, 1]])))[0]?.y1 ?? 0).toBe(0);
  });
});

describe('labels beside them', () => {
  it('stay where they are when there is room', () => {
    expect(spreadLabels([10, 100, 200], 30, 0, 300)).toEqual([10, 100, 200]);
  });

  it('move apart in order, no nearer than the gap, within the drawing', () => {
    const placed = spreadLabels([100, 102, 104, 290], 30, 0, 300);
    for (let i = 1; i < placed.length; i++) expect(placed[i]! - placed[i - 1]!).toBeGreaterThanOrEqual(30 - 1e-9);
    expect(placed[0]).toBeGreaterThanOrEqual(0);
    expect(placed.at(-1)).toBeLessThanOrEqual(300);
    expect(spreadLabels([295, 299], 30, 0, 300)).toEqual([270, 300]);
  });
});

describe('the age river', () => {
  const L = (value: number) => ({ value: String(value), unit: 'L' });
  const river = {
    lots: [
      { serial: 0, number: 2, name: 'first', kind: 'beer', brewed_from: '2020-01-01', brewed_to: '2020-01-01', assumed: false },
      { serial: 1, number: 9, name: 'second', kind: 'beer', brewed_from: '2021-01-01', brewed_to: '2021-01-01', assumed: false },
    ],
    steps: [
      { time: '2020-02-01T12:00:00Z', day: '2020-02-01', volume: L(54), parts: [{ serial: 0, volume: L(54) }] },
      { time: '2021-02-01T12:00:00Z', day: '2021-02-01', volume: L(54), parts: [{ serial: 0, volume: L(54) }] },
      { time: '2021-02-01T12:00:00Z', day: '2021-02-01', volume: L(36), parts: [{ serial: 0, volume: L(36) }] },
      { time: '2021-02-01T12:01:00Z', day: '2021-02-01', volume: L(54), parts: [{ serial: 0, volume: L(36) }, { serial: 1, volume: L(18) }] },
      { time: '2022-02-01T12:00:00Z', day: '2022-02-01', volume: L(54), parts: [{ serial: 0, volume: L(36) }, { serial: 1, volume: L(18) }] },
    ],
    turns: [],
    usual_pull: null,
    usual_interval_days: null,
  } as unknown as River;

  it('stacks the lots oldest at the bottom, up to what was in it', () => {
    const { bands, most, surface } = riverLayout(river);
    expect(bands.map((b) => b.name)).toEqual(['first', 'second']);
    expect(most).toBe(54);
    expect(bands[0]!.points.at(-1)).toMatchObject({ low: 0, high: 36 });
    expect(bands[1]!.points.at(-1)).toMatchObject({ low: 36, high: 54 });
    expect(surface.map((s) => s.litres)).toEqual([54, 54, 36, 54, 54]);
  });

  it('begins a lot at nothing, on the step before it enters', () => {
    const second = riverLayout(river).bands[1]!;
    expect(second.points[0]).toMatchObject({ low: 36, high: 36 });
  });

  it('is cut between steps by interpolation', () => {
    const points = [
      { t: 0, low: 0, high: 10 },
      { t: 10, low: 0, high: 20 },
    ];
    expect(cutBand(points, 5, 10)).toEqual([
      { t: 5, low: 0, high: 15 },
      { t: 10, low: 0, high: 20 },
    ]);
    expect(bandPath(points, (t) => t, (l) => l)).toBe('M0 10L10 20L10 0L0 0Z');
    expect(bandPath([], (t) => t, (l) => l)).toBe('');
  });
});
