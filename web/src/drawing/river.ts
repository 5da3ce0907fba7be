// The age river: what a holding was made of, over time, oldest at the bottom.
import type { River } from '../api/types';
import { dayMs } from '../days/days';
import { agePercent } from '../look/lightness';

export interface RiverPoint {
  t: number; // ms
  low: number; // litres under it
  high: number; // litres up to its own top
}

export interface RiverBand {
  serial: number; // by age: 0 the oldest; picks the hatch
  name: string;
  beer: boolean;
  assumed: boolean;
  brewed: number; // ms: middle of its range
  points: RiverPoint[];
}

export interface RiverLayout {
  bands: RiverBand[];
  surface: { t: number; litres: number }[];
  from: number;
  to: number;
  most: number; // litres
}

const k_year_ms = 365.25 * 86_400_000;
const k_old_percent = 46; // where the hatch turns pale (look/hatch.ts)

export function riverLayout(river: River): RiverLayout {
  const steps = river.steps.map((s) => ({ t: Date.parse(s.time), litres: Number(s.volume.value), parts: s.parts }));
  const entered = (serial: number) => steps.find((s) => s.parts.some((p) => p.serial === serial))?.t ?? 0;
  const brewedOf = (lot: River['lots'][number]) => {
    const a = lot.brewed_from ? dayMs(lot.brewed_from) : NaN;
    const b = lot.brewed_to ? dayMs(lot.brewed_to) : NaN;
    if (Number.isNaN(a) && Number.isNaN(b)) return entered(lot.serial);
    return Number.isNaN(a) ? b : Number.isNaN(b) ? a : (a + b) / 2;
  };
  // What is no beer lies on top, as in a vessel.
  const lots = river.lots
    .map((lot) => ({ lot, brewed: brewedOf(lot), beer: lot.kind === 'beer' || lot.kind === 'unknown' }))
    .sort((a, b) => Number(b.beer) - Number(a.beer) || a.brewed - b.brewed || a.lot.serial - b.lot.serial);

  const floor = steps.map(() => 0);
  const bands = lots.map(({ lot, brewed, beer }, serial): RiverBand => {
    const all = steps.map((step, i) => {
      const litres = Number(step.parts.find((p) => p.serial === lot.serial)?.volume.value ?? 0);
      const low = floor[i] ?? 0;
      floor[i] = low + litres;
      return { t: step.t, low, high: low + litres };
    });
    // From the step before it enters to the one after it is gone.
    const first = all.findIndex((p) => p.high > p.low);
    let last = all.length - 1;
    while (last > first && all[last]!.high <= all[last]!.low) last--;
    const points = first < 0 ? [] : all.slice(Math.max(0, first - 1), last + 2);
    return { serial, name: lot.name, beer, assumed: lot.assumed, brewed, points };
  });
  return {
    bands: bands.filter((b) => b.points.length > 1),
    surface: steps.map((s) => ({ t: s.t, litres: s.litres })),
    from: steps[0]?.t ?? 0,
    to: steps.at(-1)?.t ?? 0,
    most: Math.max(0, ...steps.map((s) => s.litres)),
  };
}

// When a band's hatch turns from dark to pale.
export function turnsPale(band: RiverBand): number {
  let years = 0;
  while (agePercent(years) < k_old_percent && years < 20) years += 0.02;
  return band.brewed + years * k_year_ms;
}

export function yearsAt(band: RiverBand, t: number): number {
  return Math.max(0, (t - band.brewed) / k_year_ms);
}

// The part of a band between two instants, its edges interpolated.
export function cutBand(points: RiverPoint[], from: number, to: number): RiverPoint[] {
  const cut: RiverPoint[] = [];
  for (let i = 0; i < points.length; i++) {
    const p = points[i]!;
    const before = points[i - 1];
    for (const edge of [from, to]) {
      if (before && before.t < edge && edge < p.t) {
        const f = (edge - before.t) / (p.t - before.t);
        cut.push({ t: edge, low: before.low + f * (p.low - before.low), high: before.high + f * (p.high - before.high) });
      }
    }
    if (p.t >= from && p.t <= to) cut.push(p);
  }
  return cut;
}

export function bandPath(points: RiverPoint[], x: (t: number) => number, y: (litres: number) => number): string {
  if (points.length < 2) return '';
  const r = (v: number) => Math.round(v * 10) / 10;
  const up = points.map((p) => `${r(x(p.t))} ${r(y(p.high))}`);
  const down = [...points].reverse().map((p) => `${r(x(p.t))} ${r(y(p.low))}`);
  return `M${up.join('L')}L${down.join('L')}Z`;
}
