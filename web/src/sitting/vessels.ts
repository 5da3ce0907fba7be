// Vessels as a form offers them: found by reference or name, and what would happen if liquid went there.
import type { CellarAnswer, Vessel } from '../api/types';

export function vesselOf(cellar: CellarAnswer | null, text: unknown): Vessel | null {
  if (!cellar || typeof text !== 'string' || !text) return null;
  const number = /^#(\d+)$/.exec(text)?.[1];
  return cellar.vessels.find((v) => (number ? v.number === Number(number) : v.name === text)) ?? null;
}

export function nameOf(cellar: CellarAnswer | null, text: unknown): string {
  if (typeof text !== 'string' || !text) return '';
  const number = /^#(\d+)$/.exec(text)?.[1];
  if (!number) return text;
  const run = cellar?.runs.find((r) => r.number === Number(number));
  return vesselOf(cellar, text)?.name ?? run?.run ?? text;
}

export const held = (v: Vessel) => Number(v.volume.value);
export const room = (v: Vessel) => Math.max(0, Number(v.full.value) - held(v) - Number(v.solids.value));

export interface Offer {
  vessel: Vessel;
  fits: boolean;
  empty: boolean;
  free: number; // litres
}

// Where a volume could go, best first: empty and just large enough, then empty, then with room, then what is too small.
export function offers(vessels: Vessel[], litres: number | null, from: Vessel | null): Offer[] {
  const rank = (o: Offer) => (o.fits ? 0 : 4) + (o.empty ? 0 : 2) + (o.vessel.role === 'solera' ? 1 : 0);
  return vessels
    .filter((v) => v.number !== from?.number)
    .map((vessel) => ({
      vessel,
      free: room(vessel),
      empty: held(vessel) === 0,
      fits: room(vessel) >= (litres ?? 0) - 1e-9 && room(vessel) > 0,
    }))
    .sort((a, b) => rank(a) - rank(b) || a.free - b.free);
}
