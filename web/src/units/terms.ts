// How many figures of a sum's row are worth showing, by its unit; as the command line prints them.
import type { Term } from '../api/answers';

const k_decimals: Record<string, number> = {
  SG: 4,
  pH: 2,
  '% vol': 1,
  '%': 1,
  L: 2,
  bar: 2,
  vol: 2,
  ppm: 0,
  IBU: 0,
  EBC: 0,
  SRM: 1,
  '°C': 1,
  C: 1,
  meq: 0,
  kg: 2,
  P: 2,
  '°P': 2,
  years: 1,
};

export function termFigure(term: Term): { text: string; decimals: number } {
  const known = k_decimals[term.unit];
  const size = Math.abs(term.value);
  // A value too small for its usual decimals keeps two figures, never reading as none.
  const needed = size > 0 && size < 1 ? 1 - Math.floor(Math.log10(size)) : 0;
  let decimals = known ?? (size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : Math.min(6, needed));
  if (known !== undefined && size > 0 && size < 0.5 * 10 ** -known) decimals = Math.min(8, needed);
  if (Number.isInteger(term.value) && known === undefined) decimals = 0;
  return { text: term.value.toFixed(decimals), decimals };
}
