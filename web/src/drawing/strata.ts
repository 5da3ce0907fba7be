// What a liquid is made of as layers in a vessel: oldest at the bottom, the area of a layer in the cut is its share.
import type { Age } from '../api/types';
import { heightOfShare, type Shape } from './shape';

export interface Part {
  name: string;
  share: number; // of all that is in the vessel
  years: number;
  serial: number; // its place by age, 0 the oldest: picks the hatch
  beer: boolean; // what is no beer is drawn as an open outline
  assumed: boolean;
}

export interface Stratum {
  parts: Part[]; // more than one: too thin to be drawn alone
  y0: number; // px above the floor
  y1: number;
  share: number;
  years: number; // mean by share
  serial: number;
  beer: boolean;
  assumed: boolean;
}

// Oldest first; what is no beer comes last, on top.
export function partsOf(age: Age | null): Part[] {
  if (!age) return [];
  const beer = [...age.parts]
    .sort((a, b) => b.age_years - a.age_years || a.name.localeCompare(b.name))
    .map((p, serial) => ({ name: p.name, share: p.share, years: p.age_years, serial, beer: true, assumed: p.assumed }));
  const others = age.others.map((o, i) => ({
    name: o.name,
    share: o.share,
    years: 0,
    serial: beer.length + i,
    beer: false,
    assumed: false,
  }));
  // Shares among beer, or among all that is there: drawn they are of all that is there.
  const beer_sum = beer.reduce((sum, p) => sum + p.share, 0);
  const other_sum = others.reduce((sum, p) => sum + p.share, 0);
  const scale = beer_sum > 0 ? Math.max(0, 1 - other_sum) / beer_sum : 0;
  return [...beer.map((p) => ({ ...p, share: p.share * scale })), ...others];
}

const k_thinnest_px = 2;

// Layers from the floor up. `fill` is the volume over the brimful capacity; `scale` is px a decimetre.
export function strataLayout(shape: Shape, scale: number, fill: number, parts: Part[]): Stratum[] {
  const strata: Stratum[] = [];
  let below = 0;
  let held: Part[] = [];
  let bottom = 0;
  const flush = (top: number) => {
    if (held.length === 0) return;
    const share = held.reduce((sum, p) => sum + p.share, 0);
    const weigh = (of: (p: Part) => number) => held.reduce((sum, p) => sum + of(p) * p.share, 0) / (share || 1);
    strata.push({
      parts: held,
      y0: bottom,
      y1: top,
      share,
      years: weigh((p) => p.years),
      serial: held[0]?.serial ?? 0,
      beer: held.every((p) => p.beer),
      assumed: held.some((p) => p.assumed),
    });
    held = [];
    bottom = top;
  };
  for (const part of parts) {
    if (part.share <= 0) continue;
    // Beer and what is none are never one layer.
    if (held.length > 0 && held[0]?.beer !== part.beer) flush(heightOfShare(shape, fill * below) * scale);
    held.push(part);
    below += part.share;
    const top = heightOfShare(shape, fill * below) * scale;
    if (top - bottom >= k_thinnest_px) flush(top);
  }
  // What is left over on top is too thin to be seen: it goes with the layer below it.
  if (held.length > 0) {
    const top = heightOfShare(shape, fill * below) * scale;
    const last = strata.at(-1);
    if (last && last.beer === held[0]?.beer) {
      last.parts = [...last.parts, ...held];
      last.share += held.reduce((sum, p) => sum + p.share, 0);
      last.y1 = top;
    } else {
      flush(top);
    }
  }
  return strata;
}

export function stratumName(stratum: Stratum): string {
  if (stratum.parts.length === 1) return stratum.parts[0]?.name ?? '';
  const most = [...stratum.parts].sort((a, b) => b.share - a.share)[0];
  // One lot with traces of others goes by its own name.
  if (most && most.share > 0.8 * stratum.share) return `${most.name} and ${stratum.parts.length - 1} more`;
  return `${stratum.parts.length} ${stratum.beer ? 'lots' : 'other sources'}`;
}

// Places for labels beside the layers: as near to each as can be, in order, none over another.
export function spreadLabels(wanted: number[], gap: number, low: number, high: number): number[] {
  const n = wanted.length;
  const placed = [...wanted];
  // Pool neighbours that are too near into blocks that share one shift (pool adjacent violators).
  interface Block {
    sum: number;
    count: number;
  }
  const blocks: Block[] = [];
  placed.forEach((y, i) => {
    blocks.push({ sum: y - i * gap, count: 1 });
    for (;;) {
      const b = blocks.at(-1);
      const a = blocks.at(-2);
      if (!a || !b || a.sum / a.count <= b.sum / b.count) break;
      blocks.splice(-2, 2, { sum: a.sum + b.sum, count: a.count + b.count });
    }
  });
  let i = 0;
  for (const block of blocks) {
    const at = Math.max(low, Math.min(high - (n - 1) * gap, block.sum / block.count));
    for (let k = 0; k < block.count; k++, i++) placed[i] = at + i * gap;
  }
  return placed;
}
