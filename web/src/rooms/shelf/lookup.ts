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

// A scanned label holds the code and more: the run whose code stands in it as a word of its own, the longest of several.
export function scannedRun(runs: Run[], text: string): FoundRun {
  const words = new Set(text.split(/[\s,;|]+/).map(plain));
  const found = runs.filter((r) => words.has(plain(r.run))).sort((a, b) => b.run.length - a.run.length);
  return found[0] ? { run: found[0], near: [] } : { run: null, near: [] };
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
