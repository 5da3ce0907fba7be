// Addresses of the page: /cellar, /vessel/12, /turn/1, /sitting/pull/1, ... and back.
import type { WhichCellar } from '../api/client';

export interface Place {
  room: string; // "cellar", "vessel", "turn", ...
  parts: string[]; // what follows it: ["12"], ["pull", "1"]
  number: number | null; // the last part, where it is a number: of a vessel, run or entry
  cellar: WhichCellar;
  query: Record<string, string>;
}

export function readPlace(path: string, search: string): Place {
  const [room = '', ...parts] = path.split('/').filter(Boolean).map(decode);
  const query = Object.fromEntries(new URLSearchParams(search));
  const cellar = query.cellar === 'demo' ? 'demo' : 'own';
  delete query.cellar;
  const last = parts.at(-1) ?? '';
  const number = /^[1-9]\d{0,9}$/.test(last) ? Number(last) : null;
  return { room: room || 'cellar', parts, number, cellar, query };
}

function decode(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

export function writePlace(
  path: string,
  cellar: WhichCellar,
  query: Record<string, string | number | undefined> = {},
): string {
  const search = new URLSearchParams();
  for (const [name, value] of Object.entries(query)) {
    if (value !== undefined && value !== '') search.set(name, String(value));
  }
  if (cellar === 'demo') search.set('cellar', 'demo');
  const words = search.toString();
  return words ? `${path}?${words}` : path;
}
