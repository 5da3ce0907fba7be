// Where something due is settled: the word of the act, and its address on the page.
import type { DueItem, Run, Vessel } from '../../api/types';

export interface Settling {
  word: string;
  path: string;
}

const k_acts: Record<string, { word: string; act: string }> = {
  reading: { word: 'Read', act: 'read' },
  tasting: { word: 'Taste', act: 'taste' },
  pull: { word: 'Pull', act: 'pull' },
  refill: { word: 'Refill', act: 'refill' },
  brew: { word: 'Refill', act: 'refill' },
  top_up: { word: 'Top up', act: 'top-up' },
  rack: { word: 'Rack', act: 'rack' },
  lift: { word: 'Lift', act: 'lift' },
  add: { word: 'Add', act: 'add' },
};

export function settling(item: DueItem, vessels: Vessel[], runs: Run[], has_shelf: boolean): Settling | null {
  const vessel = vessels.find((v) => v.name === item.subject);
  const run = runs.find((r) => r.run === item.subject);
  const act = k_acts[item.what];
  const number = vessel?.number ?? run?.number;
  if (number === undefined) return null;
  if (act) return { word: act.word, path: `/sitting/${act.act}/${number}` };
  if (vessel) return { word: 'Look', path: `/vessel/${number}` };
  return { word: item.what === 'gas' ? 'Gas check' : 'Look', path: has_shelf ? `/shelf/${number}` : `/vessel/${number}` };
}
