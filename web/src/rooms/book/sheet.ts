// A keeper's spreadsheet as the page needs it to ask what its columns are: header, some rows, a guess. The program reads the sheet
// itself; nothing here decides what is booked.

export interface SheetStart {
  header: string[];
  rows: string[][]; // the first few
  count: number; // all rows below the header
}

// RFC 4180 with commas, semicolons or tabs; which of them is told by the header.
export function readSheetStart(text: string, most = 5): SheetStart {
  const plain = text.replace(/^\uFEFF/, '');
  const first = plain.split(/\r?\n/, 1)[0] ?? '';
  const outside = first.replace(/"[^"]*"/g, '');
  const counts = [';', '\t', ','].map((d) => [d, outside.split(d).length - 1] as const);
  const delimiter = counts.reduce((best, one) => (one[1] > best[1] ? one : best))[0];
  const all: string[][] = [];
  let row: string[] = [];
  let cell = '';
  let quoted = false;
  const end_row = () => {
    row.push(cell);
    if (row.some((c) => c.trim() !== '')) all.push(row);
    row = [];
    cell = '';
  };
  for (let i = 0; i < plain.length; i++) {
    const c = plain[i] ?? '';
    if (quoted) {
      if (c === '"' && plain[i + 1] === '"') {
        cell += '"';
        i++;
      } else if (c === '"') quoted = false;
      else cell += c;
    } else if (c === '"' && cell.trim() === '') {
      quoted = true;
      cell = '';
    } else if (c === delimiter) {
      row.push(cell);
      cell = '';
    } else if (c === '\n') end_row();
    else if (c !== '\r') cell += c;
  }
  if (cell !== '' || row.length) end_row();
  const [header = [], ...rows] = all;
  return { header: header.map((h) => h.trim()), rows: rows.slice(0, most).map((r) => r.map((c) => c.trim())), count: rows.length };
}

// What a column can be; words as in docs/cli.md, section "A spreadsheet".
export const k_fields = [
  'date',
  'date dmy',
  'date mdy',
  'time',
  'vessel',
  'gravity',
  'gravity P',
  'ph',
  'ta g/L',
  'temperature C',
  'temperature F',
  'co2 vol',
  'weight kg',
  'read-at C',
  'instrument',
  'sample mL',
  'score sour',
  'score',
  'fault',
  'words',
  'liking',
  'taster',
  'note',
] as const;

const k_guesses: [RegExp, string][] = [
  [/^(date|day|datum|fecha|data|tag|jour)$/i, 'date'],
  [/^(time|zeit|hora|heure|uhrzeit)$/i, 'time'],
  [/^(vessel|gef(ä|ae)(ß|ss)|tank|barrel|what|beer)$/i, 'vessel'],
  [/^(sg|gravity|fg|dichte|densit)/i, 'gravity'],
  [/^(plato|°p|extract)/i, 'gravity P'],
  [/^ph$/i, 'ph'],
  [/^(ta|acid)/i, 'ta g/L'],
  [/^(temp|°c|temperatur)/i, 'temperature C'],
  [/^co2/i, 'co2 vol'],
  [/^(sour|sauer)/i, 'score sour'],
  [/^(taster|who|wer)$/i, 'taster'],
  [/^(liking|overall)$/i, 'liking'],
  [/^(words|tasting|taste)$/i, 'words'],
  [/^(note|notes|remark|bemerkung)/i, 'note'],
];

// A guess from the name of a column, and for a date from the days in it; empty: passed over.
export function guessField(name: string, cells: string[]): string {
  const found = k_guesses.find(([pattern]) => pattern.test(name.trim()))?.[1] ?? '';
  if (found !== 'date') return found;
  const days = cells.filter(Boolean);
  if (days.some((d) => /^\d{4}-/.test(d))) return 'date';
  const numbers = days.map((d) => d.split(/[./-]/).map(Number));
  if (numbers.some((n) => (n[0] ?? 0) > 12)) return 'date dmy';
  if (numbers.some((n) => (n[1] ?? 0) > 12)) return 'date mdy';
  return 'date dmy';
}

// As `--map` takes it: a name with a comma, an equals sign or quotes in it stands in quotes.
export function mapPieces(header: string[], fields: string[]): string[] {
  return header.flatMap((name, i) => {
    const field = fields[i] ?? '';
    if (!field) return [];
    const piece = `${name}=${field}`;
    return [/[,"]/.test(name) ? `"${piece.replaceAll('"', '""')}"` : piece];
  });
}
