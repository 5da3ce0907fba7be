// A run as a row of bottle ends: what is here has a punt dot, what is gone is dashed, what is in doubt is cross-hatched.

export interface BottleEnd {
  here: number; // bottles it stands for that are here
  of: number;
}

export interface BottleEnds {
  each: number; // bottles an end stands for
  ends: BottleEnd[];
}

const k_most_ends = 120;
const k_case = 12;

// Those that are here come first. Over 120 bottles an end is a case of twelve; the last case may be short.
export function bottleEnds(count: number, left: number): BottleEnds {
  const all = Math.max(0, Math.trunc(count));
  let here = Math.min(all, Math.max(0, Math.trunc(left)));
  const each = all > k_most_ends ? k_case : 1;
  const ends: BottleEnd[] = [];
  for (let placed = 0; placed < all; placed += each) {
    const of = Math.min(each, all - placed);
    ends.push({ here: Math.min(of, here), of });
    here = Math.max(0, here - of);
  }
  return { each, ends };
}

// "29 of 32 here: 3 opened", as it is read aloud and printed.
export function bottleWords(count: number, left: number, taken: Record<string, number>): string {
  const causes = Object.entries(taken)
    .filter(([, n]) => n > 0)
    .map(([cause, n]) => `${n} ${cause}`);
  return `${left} of ${count} here${causes.length ? `: ${causes.join(', ')}` : ''}`;
}
