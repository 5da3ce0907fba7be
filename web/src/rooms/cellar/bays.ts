// How the cellar is laid out: vessels into bays, bays into one row or into storeys by place.
import type { Vessel } from '../../api/types';
import { shapeOf, type Shape } from '../../drawing/shape';

export interface Standing {
  vessel: Vessel;
  shape: Shape;
  step: number; // of a stair: 0 stands on the floor
}

export interface Bay {
  key: string;
  place: string;
  title: string;
  standing: Standing[];
  width: number; // decimetres
}

const k_gap = 0.55; // between two vessels, dm
const k_side = 0.9; // from vessel to wall
const k_narrowest = 7.2; // a caption needs its room too
export const k_step = 0.9; // height of a step, dm

// Soleras each in a bay of their own, a chain of like ones in one; what else stands in the same place shares a bay.
export function baysOf(vessels: Vessel[]): Bay[] {
  const bays: Bay[] = [];
  for (const place of unique(vessels.map((v) => v.location))) {
    const here = vessels.filter((v) => v.location === place);
    const chains = new Map<string, Vessel[]>();
    for (const v of here.filter((one) => one.role === 'solera')) {
      const name = v.name.replace(/[\s-]*\d+$/, '');
      const key = `${name} ${v.capacity.value}`;
      chains.set(key, [...(chains.get(key) ?? []), v]);
    }
    for (const [key, chain] of chains) {
      const title = chain.length > 1 ? (chain[0]?.name ?? '').replace(/[\s-]*\d+$/, '') : (chain[0]?.name ?? '');
      bays.push(bay(`${place}/${key}`, place, title, chain, chain.length > 1));
    }
    const rest = here.filter((v) => v.role !== 'solera');
    if (rest.length) bays.push(bay(`${place}/rest`, place, restTitle(rest), rest, false));
  }
  return bays;
}

function bay(key: string, place: string, title: string, vessels: Vessel[], stair: boolean): Bay {
  const standing = vessels.map((vessel, i) => ({
    vessel,
    shape: shapeOf(vessel.role, vessel.material, Number(vessel.capacity.value)),
    step: stair ? vessels.length - 1 - i : 0,
  }));
  const width = standing.reduce((sum, s) => sum + 2 * s.shape.half_max, 0) + k_gap * (standing.length - 1) + 2 * k_side;
  return { key, place, title, standing, width: Math.max(width, k_narrowest) };
}

function restTitle(vessels: Vessel[]): string {
  const kegs = vessels.some((v) => v.role === 'serving');
  const others = vessels.some((v) => v.role !== 'serving');
  if (kegs && others) return 'Finishing and kegs';
  return kegs ? 'Kegs' : 'Finishing';
}

function unique(words: string[]): string[] {
  return [...new Set(words)];
}

export function bayHeight(bay: Bay): number {
  return Math.max(...bay.standing.map((s) => s.shape.height + s.step * k_step));
}

export interface Storey {
  place: string; // empty: all places together
  bays: Bay[];
  scale: number; // px a decimetre
}

const k_pier_px = 26; // masonry between two bays
const k_smallest = 25; // px a decimetre: below it strata are no longer told apart
const k_largest = 44;

// One row when all fits at a scale that can be read; else a storey for each place, each as large as fits.
// A storey too wide even so is scrolled sideways by bay.
export function storeysOf(bays: Bay[], width: number): Storey[] {
  const fit = (some: Bay[]) => (width - k_pier_px * (some.length + 1)) / some.reduce((sum, b) => sum + b.width, 0);
  const together = fit(bays);
  if (together >= k_smallest) return [{ place: '', bays, scale: Math.min(together, k_largest) }];
  return unique(bays.map((b) => b.place)).map((place) => {
    const here = bays.filter((b) => b.place === place);
    return { place, bays: here, scale: Math.min(Math.max(fit(here), k_smallest), k_largest) };
  });
}

// px a decimetre for one bay that has the whole width (on a phone), its caption beside it or over it.
export function bayScale(bay: Bay, width: number): number {
  const inner = width - 2 * k_pier_px;
  // Alone in its bay a vessel leaves the right part to its caption.
  const alone = bay.standing.length === 1 ? Math.max(60, inner * 0.4) / (2 * (bay.standing[0]?.shape.half_max ?? 1)) : Infinity;
  return Math.min(34, alone, Math.max(16, inner / bay.width));
}

export { k_gap, k_pier_px, k_side };
