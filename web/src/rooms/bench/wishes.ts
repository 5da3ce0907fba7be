// Wishes of a blend, as rows of the page and as the program takes them.

export interface WishRow {
  figure: string;
  low: string;
  high: string;
  must: boolean;
  weight: string;
}

export const k_figures = ['ph', 'ta', 'alcohol', 'age', 'sour', 'funk', 'body', 'extract', 'gravity', 'ibu', 'colour', 'undissociated', 'cost'];

// "ph 3.4 to 3.5 weight 2"; nothing for a row that is not filled in.
export function wishText(row: WishRow): string {
  const low = row.low.trim();
  const high = row.high.trim();
  const figure = row.figure.trim();
  if (!figure || (!low && !high)) return '';
  const range = low && high ? (low === high ? low : `${low} to ${high}`) : low ? `at least ${low}` : `at most ${high}`;
  const weight = row.weight.trim();
  return `${figure} ${range}${weight && weight !== '1' ? ` weight ${weight}` : ''}`;
}

export function wishBody(rows: WishRow[]): { wants?: string[]; musts?: string[] } {
  const texts = (must: boolean) => rows.filter((r) => r.must === must).map(wishText).filter(Boolean);
  const wants = texts(false);
  const musts = texts(true);
  return { ...(wants.length ? { wants } : {}), ...(musts.length ? { musts } : {}) };
}
