// What is being prepared for one visit, kept on the device until it is booked: the acts as typed and the key they will have.
import type { Act, SittingBody, Touched } from '../api/types';

export interface DraftAct {
  id: number; // tells forms apart; never sent
  act: Act;
}

export interface Draft {
  key: string;
  book: string; // its name: a draft of one book is not booked in another; empty: not begun
  when: string; // as typed; empty: now
  by: string;
  acts: DraftAct[];
  unsent: SittingBody | null; // was sent, and no answer came: it may or may not be booked
}

export function emptyDraft(key: string, by: string): Draft {
  return { key, book: '', when: '', by, acts: [], unsent: null };
}

// What a draft sends: empty fields are left out, and forms that nothing was typed into yet.
export function sittingBody(draft: Draft, expected?: { sequence: number; touched: Touched[] }): SittingBody {
  const body: SittingBody = { key: draft.key, acts: draft.acts.map(({ act }) => cleanAct(act)).filter(hasSomething) };
  if (draft.when.trim()) body.when = draft.when.trim();
  if (draft.by.trim()) body.by = draft.by.trim();
  if (expected) body.expected = expected;
  return body;
}

export function cleanAct(act: Act): Act {
  const clean: Act = { act: act.act };
  for (const [name, value] of Object.entries(act)) {
    if (name.startsWith('_')) continue; // the form's own memory
    if (value === '' || value === null || value === undefined || value === false) continue;
    if (Array.isArray(value) && value.length === 0) continue;
    clean[name] = typeof value === 'string' ? value.trim() : value;
  }
  return clean;
}

// A reading without a figure, or a note without a word, is a form that was opened and left.
const k_only_what: Record<string, string[]> = {
  reading: ['gravity', 'ph', 'ta', 'temperature', 'dissolved_co2', 'weight'],
  tasting: ['scores', 'faults', 'words', 'liking'],
  note: ['words', 'picture'],
  package: ['container'],
  acknowledge: ['words'],
};

export function hasSomething(act: Act): boolean {
  const fields = k_only_what[act.act];
  return !fields || fields.some((name) => act[name] !== undefined && act[name] !== '');
}

// What an act cannot be without; said before the program is asked. Empty: nothing is missing.
export function stillOpen(act: Act): string {
  const to = act.to as { vessel?: string; volume?: string }[] | undefined;
  const wants: [boolean, string][] = [
    ['lot', 'add', 'lift', 'pitch', 'loss', 'retire', 'split', 'end', 'decide'].includes(act.act) ? [!act.vessel, 'which vessel'] : [false, ''],
    ['reading', 'tasting', 'interval', 'target', 'settle', 'treat', 'confirm', 'logger'].includes(act.act) ? [!act.subject, 'which vessel'] : [false, ''],
    act.act === 'move' ? [!act.from, 'out of which vessel'] : [false, ''],
    act.act === 'move' ? [!!to?.some((t) => !t.vessel), 'into which vessel'] : [false, ''],
    act.act === 'move' ? [!!to?.some((t) => !t.volume) && !act.to_full, 'how much'] : [false, ''],
    act.act === 'lot' ? [!act.volume && !act.to_full, 'how much'] : [false, ''],
    act.act === 'lot' ? [!act.name, 'the name of the brew'] : [false, ''],
    act.act === 'add' ? [!act.item, 'what goes in'] : [false, ''],
    act.act === 'add' ? [!act.amount, 'how much'] : [false, ''],
    act.act === 'decide' ? [!act.technique, 'how'] : [false, ''],
    act.act === 'lift' ? [!act.item, 'what comes out'] : [false, ''],
    act.act === 'pitch' ? [!act.kind, 'which culture'] : [false, ''],
    act.act === 'loss' ? [!act.volume, 'how much'] : [false, ''],
    act.act === 'loss' ? [!act.cause, 'what became of it'] : [false, ''],
    act.act === 'vessel' ? [!act.name, 'its name'] : [false, ''],
    act.act === 'vessel' ? [!act.capacity, 'what it holds'] : [false, ''],
    act.act === 'interval' ? [!act.every, 'how often'] : [false, ''],
    act.act === 'clean' ? [!act.vessel && !(act.gear as string[] | undefined)?.length, 'which vessel or gear'] : [false, ''],
    act.act === 'settle' ? [!['dip', 'ullage', 'weight', 'volume', 'full', 'count'].some((way) => act[way]), 'what was found'] : [false, ''],
    act.act === 'treat' ? [!act.method, 'how'] : [false, ''],
    act.act === 'treat' && act.method === 'heat' ? [!act.temperature || !act.minutes, 'how hot, and how long'] : [false, ''],
    act.act === 'treat' && act.method === 'filter' ? [!act.pore, 'the pore of the filter'] : [false, ''],
    act.act === 'treat' && act.method === 'sulphite' ? [!act.so2, 'how much'] : [false, ''],
    act.act === 'confirm' ? [!act.culture, 'which culture'] : [false, ''],
    act.act === 'logger' ? [!act.bytes, 'its file'] : [false, ''],
    act.act === 'calibrate' ? [!act.instrument, 'which instrument'] : [false, ''],
    act.act === 'calibrate' ? [!act.reads || !act.truth, 'what it reads, and the truth'] : [false, ''],
    act.act === 'end' ? [!act.dump && !to?.length, 'what becomes of its beer'] : [false, ''],
    act.act === 'split' ? [!act.into, 'into which vessel'] : [false, ''],
    act.act === 'split' ? [!act.volume, 'how much'] : [false, ''],
    act.act === 'split' ? [!/^#/.test(String(act.into)) && !act.capacity, 'what the new vessel holds'] : [false, ''],
  ];
  return wants.find(([open]) => open)?.[1] ?? '';
}

// Reads a kept draft; null when it is none.
export function readDraft(text: string | null): Draft | null {
  if (!text) return null;
  try {
    const held = JSON.parse(text) as Partial<Draft>;
    if (typeof held.key !== 'string' || !Array.isArray(held.acts)) return null;
    return {
      key: held.key,
      book: held.book ?? '',
      when: held.when ?? '',
      by: held.by ?? '',
      acts: held.acts.filter((a): a is DraftAct => typeof a?.id === 'number' && typeof a?.act?.act === 'string'),
      unsent: held.unsent ?? null,
    };
  } catch {
    return null;
  }
}
