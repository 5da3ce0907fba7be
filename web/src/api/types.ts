// The shapes of the API's answers, out of its OpenAPI document (schema.ts, made by npm run types).
import type { components } from './schema';

type Schemas = components['schemas'];

export type Amount = Schemas['Amount'];
export type BookState = Schemas['BookHead'];
export type BookAnswer = Schemas['About'];
export type Age = Schemas['Age'];
export type AgePart = Schemas['AgePart'];
export type LastReading = Schemas['LastReading'];
export type Vessel = Schemas['Vessel'];
export type Run = Schemas['Run'];
export type DueItem = Schemas['Due'];
export type DueAnswer = Schemas['DueAnswer'];
export type Caution = Schemas['Caution'];
export type Finding = Schemas['Finding'];
export type CellarAnswer = Schemas['Cellar'];
export type Estimate = Schemas['Estimate'];
export type Provenance = Estimate['provenance'];
export type Culture = Schemas['Culture'];
export type Allergen = Schemas['Allergen'];
export type Entry = Schemas['EntryLine'];
export type Holding = Schemas['HoldingBody']; // one vessel or run, inside another answer
export type HoldingAnswer = Schemas['Holding'];
export type Change = Schemas['Change'];
export type Touched = Schemas['Touched'];
export type SittingAnswer = Schemas['Sitting'];
export type River = Schemas['River'];
export type RiverLot = River['lots'][number];
export type ReadingsAnswer = Schemas['Readings'];
export type ReadingSeries = ReadingsAnswer['series'][number];
export type Tables = Schemas['Choices'];
export type FaultBody = Schemas['Fault'];

// An act as it is typed into a form: `act` names it; a field not typed yet may be empty or not there. The program holds it to its
// own schema when it is sent.
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
