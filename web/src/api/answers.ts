// Shapes of the answers about sums, gas, fruit, traces and whole books, named as in docs/cli.md, section JSON.
import type { Act, Age, Amount, BookState, Caution, Entry, Finding } from './types';

// One row of a sum.
export interface Term {
  name: string;
  value: number;
  unit: string;
  how: string;
  source: string;
}

export interface GasAnswer {
  subject: string;
  container: string;
  verdict: 'no_objection' | 'wait' | 'do_not' | string;
  verdict_words: string;
  reasons: string[];
  gas: Term[];
  total_volumes: number;
  total_g_per_l: number;
  pressure: Term[];
  total_gauge_bar: number;
  store_c: number;
  limit_bar: number | null; // null: nobody rated it
  allowed_bar: number;
  limit_needed_bar: number;
  by_temperature: { celsius: number; gauge_bar: number }[];
  cautions: Caution[];
}

export interface LabelAnswer {
  run: string;
  text: string;
  facts: Record<string, string> | [string, string][];
  kept: boolean;
}

export interface FruitWay {
  way: 'pre_fermented' | 'onto_beer' | string;
  title: string;
  terms: Term[];
  least_vessel: Amount;
  final_volume: Amount;
  final_alcohol: number;
  final_gravity: number;
  gas_if_closed_volumes: number;
  dates: { day: string; task: string; done_when: string; caution: string }[];
}

export interface FruitAnswer {
  fruit: string;
  mass: string;
  fruit_terms: Term[];
  ways: FruitWay[];
  cautions: Caution[];
}

export interface TraceStep {
  what: string;
  name: string;
  detail: string;
  share: number;
  volume: Amount;
  when: string;
  certainty: string;
}

export interface TraceAnswer {
  book: BookState;
  direction: 'back' | 'forward';
  subject: string;
  on: string;
  sources: TraceStep[];
  additions: TraceStep[];
  cultures: TraceStep[];
  path: TraceStep[];
  share_sum: number;
}

export interface FlowNode {
  id: string;
  what: 'lot' | 'vessel' | 'run' | 'out' | string;
  name: string;
  number: number | null;
  mean_age_years: number | null;
  flagged: boolean;
  why: string;
}

export interface FlowLink {
  from: string;
  to: string;
  volume: Amount;
}

// What came in is what is here and what went on, from the first day.
export interface FlowAnswer {
  book: BookState;
  number: number;
  here: Amount;
  nodes: FlowNode[];
  links: FlowLink[];
}

export interface EntriesAnswer {
  book: BookState;
  entries: Entry[];
  more: number | null; // ask `before` this for the next
}

export interface EntryAnswer {
  book: BookState;
  entry: Entry;
  chain: Entry[]; // all it replaced and that replaced it, newest first
  act: Act | null; // what it could be corrected with
}

export interface FindingsAnswer {
  book: BookState;
  findings: Finding[];
}

export interface CheckAnswer {
  book: BookState;
  ok: boolean;
  findings: { check: string; ok: boolean; what: string }[];
  head: string;
}

export interface CalcAnswer {
  about: string;
  basis: string | null;
  asked: Term[];
  terms: Term[];
  ranges: string[];
  left_out: string[];
  cautions: Caution[];
}

export interface SoleraTurn {
  turn: number;
  years: number;
  pulled: Amount;
  refilled: Amount;
  mean_years: number;
  sd_years: number;
  stage_years: number[];
  after_refill_years: number;
  original_share: number;
  original_share_left: number;
  effective_fills: number;
  older: { years: number; share: number }[];
}

export interface SoleraAnswer {
  convention: string;
  stages: Amount[];
  pull: Amount;
  interval_years: number;
  turns: SoleraTurn[];
  limit_years: number | null;
  turns_to_settle: number | null;
  settle_within: number;
  settled: Term[];
  carried_over: Term[];
}

export interface ChangeSide {
  stages: string[];
  share: number;
  interval_years: number;
  yearly_litres: number;
  turns: { day: string; pulled: Amount; refilled: Amount; age: Age }[];
}

export interface ChangeAnswer {
  vessel: string;
  convention: string;
  usual: string;
  old: ChangeSide;
  new: ChangeSide;
  cautions: Caution[];
}

export interface AgeFigure {
  young: number;
  middle: number;
  old: number;
}

export interface AgeAnswer {
  on: string;
  kind: string;
  subject: string;
  state: string;
  state_words: string;
  volume: Amount;
  age: Age;
  percentiles: { percent: number; years: AgeFigure }[];
  older: { years: number; share: AgeFigure }[];
  before_pull: { day: string; age: Age } | null;
  after_refill: { day: string; age: Age } | null;
  packaged: string | null;
  years_in_container: number | null;
}

export interface SheetAnswer {
  file: string;
  booked: boolean;
  rows: number;
  passed_over: number;
  already: number;
  readings: number;
  tastings: number;
  notes: number;
  sittings: number;
  first_day: string;
  last_day: string;
  subjects: { name: string; entries: number }[];
  remarks: string[];
}

export interface ImportAnswer {
  booked: boolean;
  already: boolean;
  from: { name: string; id: string };
  sittings: number;
  entries: number;
  already_here: number;
  renamed: { theirs: string; ours: string }[];
  came_in: { what: string; name: string; holds: Amount }[];
  remarks: string[];
}

// What can be chosen, with the few figures a form needs.
export interface TablesAnswer {
  fruits: { id: string; name: string; form: string; brix: number | null; sugars_g_per_100_g: number | null }[];
  cultures: {
    id: string;
    name: string;
    killer: string;
    diastatic: string;
    makes_gas: boolean;
    may_enter_sour_solera: string;
    may_enter_clean_solera: string;
  }[];
  containers: {
    id: string;
    name: string;
    material: string;
    volume_ml: number;
    head_space_percent: number;
    pressure_container: boolean;
    working_limit_bar: number | null;
    caution: string;
  }[];
  flavourings: {
    id: string;
    name: string;
    form: string;
    dose_unit: string;
    dose_low: number;
    dose_middle: number;
    dose_high: number;
    days_to_90_percent: number;
    hazard: string;
  }[];
  allergens: { id: string; name: string }[];
  words: Record<string, string[]>;
}
