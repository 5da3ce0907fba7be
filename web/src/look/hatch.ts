// Lot to hatch: neighbours in one vessel are told apart without hue, the same in every drawing and in print.
import { agePercent } from './lightness';

export const k_hatches = [
  'plain',
  'stipple',
  'broken dashes',
  'rising diagonal',
  'brick courses',
  'waves',
  'small crosses',
] as const;

const k_old_from_percent = 46; // from here on the hatch is drawn pale on dark

// `serial` is the lot's place in its solera's book order, from 0.
export function hatchOf(serial: number): number {
  const n = k_hatches.length;
  return ((Math.trunc(serial) % n) + n) % n;
}

// What to fill over the age's lightness; null for plain. The patterns are drawn once, by Hatches.svelte.
export function hatchFill(serial: number, years: number): string | null {
  const hatch = hatchOf(serial);
  if (hatch === 0) return null;
  return `url(#hatch-${hatch}-${agePercent(years) < k_old_from_percent ? 'young' : 'old'})`;
}
