// The shapes of the API's answers, named as in docs/cli.md, section JSON.
import type { GasAnswer, LabelAnswer, TablesAnswer } from './answers';

export interface Amount {
  value: string; // exact digits
  unit: string;
}

export interface BookState {
  name: string;
  zone: string;
  invented: boolean;
  read_only: boolean;
  sequence: number;
  skipped?: number;
  skipped_since?: string;
  answers_until?: string;
}

export interface BookAnswer {
  book: BookState;
  gallons: string;
  version: string;
  now: string; // an instant
  today: string; // the day it is in the cellar's zone
  empty: boolean;
}

export interface AgePart {
  name: string;
  share: number;
  age_years: number;
  age_spread_years: number;
  assumed: boolean;
}

export interface Age {
  from: string;
  mean_years: number;
  sd_years: number;
  low_years: number;
  high_years: number;
  youngest_years: number;
  youngest_name: string;
  youngest_share: number;
  share_older_than_3_years: number;
  effective_vintages: number;
  assumed: boolean;
  beer_share: number;
  parts: AgePart[];
  others: { name: string; kind: string; share: number }[];
}

export interface LastReading {
  quantity: string;
  value: string;
  unit: string;
  day: string;
  days_ago: number;
}

export interface Vessel {
  number: number;
  name: string;
  tag: string;
  role: string;
  material: string;
  location: string;
  capacity: Amount;
  full: Amount;
  volume: Amount;
  solids: Amount;
  fill: number;
  age: Age | null;
  last: LastReading[];
}

export interface Run {
  number: number;
  run: string;
  source: string;
  container: string;
  fill: Amount;
  count: number;
  left: number;
  taken: Record<string, number>;
  packaged: string;
  location: string;
  age_when_packaged: Age | null;
  years_in_container: number;
}

export interface DueItem {
  subject: string;
  what: string;
  title: string;
  from: string;
  day: string;
  until: string;
  days: number;
  urgent: boolean;
  why: string;
  command: string;
}

export interface Caution {
  id: string;
  words: string;
}

export interface Finding {
  kind: string;
  run: string;
  number: number;
  key: string;
  day: string;
  since: number;
  differences: { what: string; said: string; now: string }[];
  on_hand: number;
  given: number;
  sold: number;
  receivers: { who: string; count: number; cause: string; day: string }[];
  words: string;
  where: string;
  next_step: string;
}

export interface CellarAnswer {
  book: BookState;
  on: string;
  vessels: Vessel[];
  runs: Run[];
  in: Amount;
  out: Amount;
  on_hand: Amount;
  today: DueItem[];
  findings: Finding[];
}

export type Provenance = 'read' | 'mixed' | 'computed' | 'stated' | 'assumed';

export interface Estimate {
  quantity: string;
  mean: number;
  sd: number;
  unit: string;
  decimals: number;
  provenance: Provenance;
  read_at: string | null;
  why: string;
}

export interface Culture {
  name: string;
  kind: string;
  killer: string;
  toxin: string;
  diastatic: string;
  certainty: 'certain' | 'likely' | 'possible';
  since: string;
  came_from: string;
}

export interface Allergen {
  group: string;
  mg_per_litre: number | null;
}

export interface Entry {
  number: number;
  key: string;
  kind: string;
  day: string;
  time: string;
  text: string;
  by: string;
  live: boolean;
  superseded_by?: string; // "#433"
  reason?: string;
}

// One vessel or run, as `show` tells it.
export interface Holding {
  on: string;
  vessel: Vessel | null;
  run: Run | null;
  age_from_brew_day: Age | null;
  age_from_entry: Age | null;
  estimates: Estimate[];
  cultures: Culture[];
  allergens: Allergen[];
  inside: string[];
  took_from: string[];
  entries: Entry[];
  cautions: Caution[];
  findings: Finding[];
}

export type HoldingAnswer = Holding & { book: BookState };

export interface Change {
  subject: string;
  what: string;
  before: string;
  after: string;
}

// What a keeper saw before booking, so that a book that moved on can be told from one that did not.
export interface Touched {
  number: number; // 0: made by this very sitting, then `name` tells
  name: string;
  held: boolean;
  volume: Amount;
  cultures: { name: string; certainty: string }[];
}

export interface SittingAnswer {
  book: BookState;
  booked: boolean;
  already: boolean;
  key: string;
  when: string;
  entries: Entry[];
  before: Holding[];
  after: Holding[];
  changes: Change[];
  moved: Change[];
  findings_opened: Finding[];
  findings_closed: Finding[];
  gas_checks: GasAnswer[];
  labels: LabelAnswer[];
  cautions: Caution[];
  remarks: string[];
  touched?: Touched[];
  objection?: FaultBody | null; // of a what-if: why it would not be booked as it is
}

export interface RiverLot {
  serial: number; // its order in this holding
  number: number;
  name: string;
  kind: string;
  brewed_from: string | null;
  brewed_to: string | null;
  assumed: boolean;
}

// What a holding was made of, one before and one after each change.
export interface River {
  book: BookState;
  on: string;
  lots: RiverLot[];
  steps: { time: string; day: string; volume: Amount; parts: { serial: number; volume: Amount }[] }[];
  turns: { number: number; day: string | null; refilled_day: string | null; pulled: Amount; refilled: Amount }[];
  usual_pull: Amount | null;
  usual_interval_days: number | null;
}

export interface ReadingSeries {
  quantity: string;
  unit: string;
  decimals: number;
  points: { time: string; day: string; value: number; sd: number; instrument: string; number: number }[];
}

export interface ReadingsAnswer {
  book: BookState;
  on: string;
  series: ReadingSeries[];
}

// What can be chosen in a form.
export type Tables = TablesAnswer;

export interface FaultBody {
  kind: 'bad_input' | 'not_found' | 'impossible' | 'stale' | 'outside_model' | 'read_only' | 'storage' | string;
  where: string;
  what: string;
  facts: { label: string; value: string }[];
  next_step: string;
}

// An act as the API takes it: `act` names it, the other fields are those of src/app/act.hpp, as typed.
export interface Act {
  act: string;
  [field: string]: unknown;
}

export interface SittingBody {
  when?: string;
  after?: string;
  by?: string;
  key?: string;
  acts: Act[];
  expected?: { sequence: number; touched: Touched[] };
}
