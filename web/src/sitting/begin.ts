// An act as its form begins, from a word of the page's addresses: /sitting/pull/1. And which form an act has.
import type { Act } from '../api/types';

export function ref(number: number | null | undefined): string {
  return number ? `#${number}` : '';
}

const k_begin: Record<string, (subject: string) => Act> = {
  pull: (from) => ({ act: 'move', reason: 'pull', from, to: [{ vessel: '', volume: '' }] }),
  refill: (vessel) => ({ act: 'lot', reason: 'refill', vessel, name: '', volume: '' }),
  'top-up': (vessel) => ({ act: 'lot', reason: 'top-up', vessel, name: '', volume: '', to_full: true }),
  fill: (vessel) => ({ act: 'lot', reason: 'fill', vessel, name: '', volume: '' }),
  read: (subject) => ({ act: 'reading', subject }),
  taste: (subject) => ({ act: 'tasting', subject }),
  add: (vessel) => ({ act: 'add', vessel, item: '', amount: '' }),
  lift: (vessel) => ({ act: 'lift', vessel, item: '' }),
  pitch: (vessel) => ({ act: 'pitch', vessel, kind: '' }),
  rack: (from) => ({ act: 'move', reason: 'rack', from, to: [{ vessel: '', volume: 'all' }] }),
  blend: (vessel) => ({ act: 'move', reason: 'blend', from: '', to: [{ vessel, volume: '' }] }),
  draw: (from) => ({ act: 'loss', vessel: from, volume: '', cause: 'served' }),
  loss: (vessel) => ({ act: 'loss', vessel, volume: '', cause: '' }),
  clean: (vessel) => ({ act: 'clean', vessel, words: '' }),
  note: (subject) => ({ act: 'note', subject, words: '' }),
  remind: (subject) => ({ act: 'interval', subject, what: 'reading', every: '' }),
  target: (subject) => ({ act: 'target', subject, wants: [] }),
  decide: (vessel) => ({ act: 'decide', vessel, technique: '' }),
  vessel: () => ({ act: 'vessel', name: '', capacity: '', role: 'finishing' }),
  retire: (vessel) => ({ act: 'retire', vessel }),
  settle: (subject) => ({ act: 'settle', subject }),
  treat: (subject) => ({ act: 'treat', subject, method: '' }),
  confirm: (subject) => ({ act: 'confirm', subject, culture: '' }),
  logger: (subject) => ({ act: 'logger', subject, file: '' }),
  calibrate: () => ({ act: 'calibrate', instrument: '', quantity: 'gravity' }),
  split: (vessel) => ({ act: 'split', vessel, into: '', volume: '' }),
  end: (vessel) => ({ act: 'end', vessel }),
  package: (from) => ({ act: 'package', from, container: '', count: 'all' }),
  take: (run) => ({ act: 'take', run, count: '1', cause: 'opened' }),
  label: (run) => ({ act: 'label', run }),
  acknowledge: (run) => ({ act: 'acknowledge', run, words: '' }),
  void: (entry) => ({ act: 'void', entry, reason: '' }),
};

export function beginAct(word: string, number: number | null): Act | null {
  return k_begin[word]?.(ref(number)) ?? null;
}

// The file in forms/ that fills an act in.
export function formOf(act: Act): string {
  if (act.act === 'move') {
    if (act.reason === 'refill' || act.reason === 'top-up') return 'refill';
    return act.reason === 'rack' || act.reason === 'blend' ? 'rack' : 'pull';
  }
  if (act.act === 'lot') return act.reason === 'fill' || !act.reason ? 'fill' : 'refill';
  return act.act;
}

const k_titles: Record<string, string> = {
  'move pull': 'Pull',
  'move rack': 'Rack',
  'move blend': 'Blend',
  'move refill': 'Refill',
  'move top-up': 'Top up',
  'move serve': 'Serve',
  'lot refill': 'Refill',
  'lot top-up': 'Top up',
  'lot fill': 'Fill',
  reading: 'Read',
  tasting: 'Taste',
  add: 'Add',
  lift: 'Lift out',
  pitch: 'Pitch',
  note: 'Note',
  clean: 'Clean',
  loss: 'Loss',
  interval: 'Remind',
  target: 'Target',
  decide: 'Decide',
  vessel: 'A vessel joins',
  retire: 'A vessel leaves',
  settle: 'Stock-take',
  treat: 'Treat',
  confirm: 'Confirm',
  logger: 'Logger',
  calibrate: 'Calibrate',
  split: 'Split',
  end: 'End',
  package: 'Package',
  take: 'Take bottles',
  label: 'Label',
  acknowledge: 'Acknowledge',
  void: 'Void',
  correct: 'Correct',
};

export function actTitle(act: Act): string {
  return k_titles[`${act.act} ${act.reason ?? ''}`] ?? k_titles[act.act] ?? act.act;
}

// What it is about, as a reference or a name; a refill of a vessel is about that vessel.
export function actSubject(act: Act): string {
  if (act.act === 'move' && act.reason !== 'pull' && act.reason !== 'rack') {
    const to = act.to as { vessel: string }[] | undefined;
    return to?.[0]?.vessel ?? '';
  }
  return String(act.vessel ?? act.subject ?? act.from ?? act.run ?? act.entry ?? '');
}

const k_prepositions: Record<string, string> = {
  add: 'into',
  confirm: 'in',
  pitch: 'into',
  lift: 'out of',
  loss: 'out of',
  note: 'about',
  package: 'from',
  correct: 'entry',
  void: 'entry',
  interval: 'about',
  target: 'of',
};

export function actPreposition(act: Act): string {
  if (act.act === 'move') return act.reason === 'pull' || act.reason === 'rack' ? 'from' : 'into';
  return k_prepositions[act.act] ?? 'of';
}

// Acts that say which hoses, pumps and canes they were done with.
const k_with_gear = ['move', 'lot', 'reading', 'tasting', 'package', 'clean'];

export function takesGear(act: Act): boolean {
  return k_with_gear.includes(act.act);
}
