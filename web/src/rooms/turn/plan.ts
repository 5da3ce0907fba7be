// The next turn of a solera as it is thought through: what was typed and dragged at its five steps, and the acts that come of it.
// Kept on the device; nothing of it is in the book until its acts are booked.
import type { Act } from '../../api/types';
import { readTastingLine } from '../../sitting/tasting';

export const k_steps = ['taste', 'decide', 'pull', 'finish', 'package'] as const;
export type Step = (typeof k_steps)[number];
export const k_step_names: Record<Step, string> = {
  taste: 'taste',
  decide: 'decide',
  pull: 'pull and refill',
  finish: 'finish',
  package: 'package',
};

export type FinishWay = 'alone' | 'fruit' | 'flavour' | 'blend';

export interface Plan {
  gravity: string;
  ph: string;
  ta: string;
  temperature: string;
  sample: string;
  tasting: string; // "sour 6, lemon"
  share: number | null; // of decide, per cent; null: as usual
  months: number | null;
  pull_litres: number | null;
  into: string; // "#3"
  refill_litres: number | null;
  refill_from: string; // "#2": the stage before; empty: new beer
  refill_name: string;
  original_gravity: string;
  refill_gravity: string;
  portion: string; // what is finished and packaged: "pull" of this turn, or a vessel "#3"
  finish: FinishWay;
  fruit: string; // id
  fruit_mass: string;
  fruit_way: 'onto_beer' | 'pre_fermented';
  fruit_vessel: string; // where the fruit ferments alone
  flavour: string; // name of a row of the tables, or own words
  flavour_amount: string;
  bag: boolean;
  blend_from: string;
  blend_volume: string;
  container: string;
  count: string;
  priming: string;
  store: string;
  limit: string;
  given_away: boolean;
  purged: boolean;
  run: string;
  label_name: string;
}

export function emptyPlan(): Plan {
  return {
    gravity: '',
    ph: '',
    ta: '',
    temperature: '',
    sample: '',
    tasting: '',
    share: null,
    months: null,
    pull_litres: null,
    into: '',
    refill_litres: null,
    refill_from: '',
    refill_name: '',
    original_gravity: '',
    refill_gravity: '',
    portion: 'pull',
    finish: 'alone',
    fruit: '',
    fruit_mass: '',
    fruit_way: 'onto_beer',
    fruit_vessel: '',
    flavour: '',
    flavour_amount: '',
    bag: true,
    blend_from: '',
    blend_volume: '',
    container: '',
    count: 'all',
    priming: '',
    store: '',
    limit: '',
    given_away: false,
    purged: false,
    run: '',
    label_name: '',
  };
}

// Reads a plan that was kept; fields it does not have are as in an empty one.
export function readPlan(text: string | null): Plan {
  const plan = emptyPlan();
  try {
    const held = JSON.parse(text ?? '{}') as Record<string, unknown>;
    for (const [name, value] of Object.entries(plan)) {
      const kept = held[name];
      const may_be_null = value === null && typeof kept === 'number';
      if (kept !== undefined && (typeof kept === typeof value || may_be_null)) (plan as unknown as Record<string, unknown>)[name] = kept;
    }
  } catch {
    return emptyPlan();
  }
  return plan;
}

// Units a bare number has, as this keeper types them: from typedUnit().
export interface TypedUnits {
  gravity: string;
  temperature: string;
  pressure: string;
  withUnit: (typed: string, unit: string) => string;
}

// To ten millilitres, finer than anybody drags. Three decimals could be thousands, and the program refuses what can mean two things.
export function litresText(litres: number): string {
  return `${Number(litres.toFixed(2))} L`;
}

export function tasteActs(plan: Plan, solera: string, units: TypedUnits, taster: string): Act[] {
  const acts: Act[] = [];
  const reading: Act = { act: 'reading', subject: solera };
  if (plan.gravity.trim()) reading.gravity = units.withUnit(plan.gravity, units.gravity);
  if (plan.ph.trim()) reading.ph = plan.ph.trim();
  if (plan.ta.trim()) reading.ta = units.withUnit(plan.ta, 'g/L');
  if (plan.temperature.trim()) reading.temperature = units.withUnit(plan.temperature, units.temperature);
  const sample = units.withUnit(plan.sample, 'mL');
  if (Object.keys(reading).length > 2) acts.push(sample ? { ...reading, sample } : reading);
  if (plan.tasting.trim()) {
    const line = readTastingLine(plan.tasting);
    const tasting: Act = { act: 'tasting', subject: solera };
    if (line.scores.length) tasting.scores = line.scores;
    if (line.liking) tasting.liking = line.liking;
    if (line.words) tasting.words = line.words;
    if (taster) tasting.taster = taster;
    acts.push(acts.length || !sample ? tasting : { ...tasting, sample });
  }
  return acts;
}

export function pullActs(plan: Plan, solera: string, turn: number, units: TypedUnits): Act[] {
  const acts: Act[] = [];
  if (plan.pull_litres && plan.into) {
    acts.push({ act: 'move', reason: 'pull', from: solera, to: [{ vessel: plan.into, volume: litresText(plan.pull_litres) }] });
  }
  if (plan.refill_litres && (acts.length || !plan.pull_litres)) {
    const volume = litresText(plan.refill_litres);
    if (plan.refill_from) {
      acts.push({ act: 'move', reason: 'refill', from: plan.refill_from, to: [{ vessel: solera, volume }] });
    } else {
      const lot: Act = { act: 'lot', reason: 'refill', vessel: solera, name: plan.refill_name.trim() || `Refill of turn ${turn}`, volume };
      if (plan.original_gravity.trim()) lot.original_gravity = units.withUnit(plan.original_gravity, units.gravity);
      if (plan.refill_gravity.trim()) lot.gravity = units.withUnit(plan.refill_gravity, units.gravity);
      acts.push(lot);
    }
  }
  return acts;
}

export function portionVessel(plan: Plan): string {
  return plan.portion === 'pull' ? plan.into : plan.portion;
}

// `fruit` is the fruit's name as the program reads it.
export function finishActs(plan: Plan, fruit: string, units: TypedUnits): Act[] {
  const vessel = portionVessel(plan);
  if (!vessel) return [];
  switch (plan.finish) {
    case 'fruit': {
      if (!fruit || !plan.fruit_mass.trim()) return [];
      const into = plan.fruit_way === 'pre_fermented' ? plan.fruit_vessel : vessel;
      return into ? [{ act: 'add', vessel: into, kind: 'fruit', item: fruit, amount: units.withUnit(plan.fruit_mass, 'kg') }] : [];
    }
    case 'flavour':
      return plan.flavour.trim() && plan.flavour_amount.trim()
        ? [{ act: 'add', vessel, item: plan.flavour.trim(), amount: units.withUnit(plan.flavour_amount, 'g'), contained: plan.bag }]
        : [];
    case 'blend':
      return plan.blend_from && plan.blend_volume.trim()
        ? [{ act: 'move', reason: 'blend', from: plan.blend_from, to: [{ vessel, volume: plan.blend_volume.trim() }] }]
        : [];
    case 'alone':
      return [];
  }
}

// The label is of the run that is made in the same sitting, so the run needs its code.
export function packageActs(plan: Plan, code: string, units: TypedUnits): Act[] {
  const from = portionVessel(plan);
  if (!from || !plan.container || !plan.count.trim()) return [];
  const run = plan.run.trim() || code;
  const act: Act = { act: 'package', from, container: plan.container, count: plan.count.trim(), run };
  if (plan.priming.trim()) act.priming = plan.priming.trim();
  if (plan.store.trim()) act.store = units.withUnit(plan.store, units.temperature);
  if (plan.limit.trim()) act.limit = units.withUnit(plan.limit, units.pressure);
  if (plan.given_away) act.given_away = true;
  if (plan.purged) act.purged = true;
  const label: Act = { act: 'label', run };
  if (plan.label_name.trim()) label.name = plan.label_name.trim();
  return [act, label];
}

// A code that no run has yet: "AMB-4" after AMB-3.
export function nextCode(vessel: string, known: string[]): string {
  const short = vessel.replace(/^the /i, '').replace(/[^\p{L}\p{N}]/gu, '').slice(0, 3).toUpperCase() || 'RUN';
  const numbers = known.map((code) => new RegExp(`^${short}-(\\d+)`).exec(code)?.[1]).filter((n) => n !== undefined);
  return `${short}-${Math.max(0, ...numbers.map(Number)) + 1}`;
}
