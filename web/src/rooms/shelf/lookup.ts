// A run by the code on its label, as somebody reads it off in a dim cellar.
import type { Run } from '../../api/types';

// Case, blanks, dashes and points do not count: "am 3" finds AM-3.
function plain(code: string): string {
  return code.toLowerCase().replace(/[\s\-_.#/]+/g, '');
}

export interface FoundRun {
  run: Run | null;
  near: string[]; // codes that begin like it, or hold it, when there is not just one
}

export function findRun(runs: Run[], code: string): FoundRun {
  const wanted = plain(code);
  if (!wanted) return { run: null, near: runs.map((r) => r.run).slice(0, 8) };
  const same = runs.filter((r) => plain(r.run) === wanted);
  if (same.length === 1 && same[0]) return { run: same[0], near: [] };
  const near = runs.filter((r) => plain(r.run).includes(wanted));
  if (near.length === 1 && near[0]) return { run: near[0], near: [] };
  return { run: null, near: (near.length ? near : runs).map((r) => r.run).slice(0, 8) };
}
