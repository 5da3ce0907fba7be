// Gauge pressure against the temperature of the store: what is read off the gas check's curve. The program computes the pressures;
// here they are only laid out, and read between its points.
import type { GasAnswer } from '../api/answers';

export interface PressurePoint {
  celsius: number;
  bar: number;
}

// What the verdict rests on: what 95 in 100 stay within, or the bound of what is known while the gravity is not read.
export function pressurePoints(gas: GasAnswer): PressurePoint[] {
  const points = gas.spread
    ? gas.spread.by_temperature.map((p) => ({ celsius: p.celsius, bar: p.gauge_bar.high }))
    : gas.by_temperature.map((p) => ({ celsius: p.celsius, bar: p.gauge_bar }));
  return points.sort((a, b) => a.celsius - b.celsius);
}

export interface PressureBand {
  celsius: number;
  low: number;
  mid: number;
  high: number;
}

// Between what nine of ten lie; none while the gravity is not read.
export function pressureBand(gas: GasAnswer): PressureBand[] {
  const bands = gas.spread?.by_temperature.map((p) => ({ celsius: p.celsius, low: p.gauge_bar.low, mid: p.gauge_bar.mid, high: p.gauge_bar.high }));
  return (bands ?? []).sort((a, b) => a.celsius - b.celsius);
}

// At the warmest store, of the same line.
export function barAtStore(gas: GasAnswer): number {
  return gas.spread?.at_store?.high ?? gas.total_gauge_bar;
}

// Between two points along a straight line; beyond the ends it is not known.
export function barAt(points: PressurePoint[], celsius: number): number | null {
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1];
    const b = points[i];
    if (!a || !b || celsius < a.celsius || celsius > b.celsius) continue;
    const t = b.celsius > a.celsius ? (celsius - a.celsius) / (b.celsius - a.celsius) : 0;
    return a.bar + (b.bar - a.bar) * t;
  }
  return null;
}

export type ColdEnough =
  | { kind: 'unrated' } // nobody says what the container bears
  | { kind: 'never' } // too much even at the cold end
  | { kind: 'always' } // allowed up to the warm end
  | { kind: 'up_to'; celsius: number };

// The warmest store at which the pressure stays at or below what is allowed.
export function coldEnough(gas: GasAnswer): ColdEnough {
  if (gas.limit_bar === null) return { kind: 'unrated' };
  const points = pressurePoints(gas);
  const first = points[0];
  const last = points.at(-1);
  if (!first || !last) return { kind: 'unrated' };
  if (gas.spread) {
    const warmest = gas.spread.warmest_safe_c;
    if (warmest === null) return { kind: 'never' };
    return warmest >= last.celsius ? { kind: 'always' } : { kind: 'up_to', celsius: warmest };
  }
  if (first.bar > gas.allowed_bar) return { kind: 'never' };
  if (last.bar <= gas.allowed_bar) return { kind: 'always' };
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1];
    const b = points[i];
    if (!a || !b || b.bar <= gas.allowed_bar) continue;
    const t = (gas.allowed_bar - a.bar) / (b.bar - a.bar);
    return { kind: 'up_to', celsius: a.celsius + t * (b.celsius - a.celsius) };
  }
  return { kind: 'always' };
}

// The top of the pressure axis: above the curve and above the limit, and above none of it by much.
export function pressureTop(gas: GasAnswer): number {
  const highest = Math.max(1, gas.limit_bar ?? 0, ...pressurePoints(gas).map((p) => p.bar));
  return Math.ceil(highest * 1.06);
}
