// A tasting in one line: "sour 6, funk 5, liking 8, lemon, hay" is scores, a liking and words.

export interface TastingLine {
  scores: string[]; // "sour=6"
  liking: string;
  words: string;
}

export function readTastingLine(line: string): TastingLine {
  const told: TastingLine = { scores: [], liking: '', words: '' };
  const words: string[] = [];
  for (const piece of line.split(/[,;]/).map((p) => p.trim()).filter(Boolean)) {
    const m = /^(\p{L}[\p{L} _-]*?)\s*[= ]\s*(\d{1,2}(?:\.\d+)?)$/u.exec(piece);
    if (!m || Number(m[2]) > 10) words.push(piece);
    else if (/^(liking|liked)$/i.test(m[1] ?? '')) told.liking = m[2] ?? '';
    else told.scores.push(`${m[1]}=${m[2]}`);
  }
  told.words = words.join(', ');
  return told;
}
