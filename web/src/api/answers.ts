// Shapes of the answers about sums, gas, fruit, traces and whole books, out of the OpenAPI document (schema.ts, made by npm run types).
import type { components } from './schema';
import type { Act } from './types';

type Schemas = components['schemas'];

export type Term = Schemas['Term'];
export type GasAnswer = Schemas['GasBody'];
export type LabelAnswer = Schemas['LabelBody'];
export type FruitAnswer = Schemas['Fruit'];
export type FruitWay = FruitAnswer['ways'][number];
export type TraceStep = Schemas['TraceStep'];
export type TraceAnswer = Schemas['Trace'];
// What came in is what is here and what went on, from the first day.
export type FlowAnswer = Schemas['Flow'];
// A drawing adds places of its own: what is still here, what a trace forward ends in.
export type FlowNode = Omit<FlowAnswer['nodes'][number], 'what'> & { what: string };
export type FlowLink = FlowAnswer['links'][number];
export type EntriesAnswer = Schemas['Entries'];
// `act`: what it could be corrected with, as a form may hold it.
export type EntryAnswer = Omit<Schemas['Entry'], 'act'> & { act: Act | null };
export type FindingsAnswer = Schemas['Findings'];
export type GearAnswer = Schemas['Gear'];
export type Receiver = Schemas['Receiver'];
export type RecallPlace = Schemas['RecallPlace'];
export type RecallAnswer = Schemas['Recall'];
export type DregsUse = Schemas['DregsUse'];
export type DregsAnswer = Schemas['Dregs'];
export type PanelAnswer = Schemas['Panel'];
export type BlindAnswer = Schemas['BlindTasting'];
export type GapAnswer = Schemas['Gap'];
export type TrialsAnswer = Schemas['TrialsAnswer'];
export type QuarterAnswer = Schemas['Quarter'];
export type FinishAnswer = Schemas['FinishAnswer'];
export type LearnedAnswer = Schemas['Learned'];
export type TastingWordsAnswer = Schemas['TastingWords'];
export type TastedFigure = Schemas['TastedFigure'];
export type BlendAnswer = Schemas['BlendAnswer'];
export type BlendRecipe = Schemas['BlendRecipe'];
export type WeighingAnswer = Schemas['Weighing'];
export type ShelfRun = Schemas['ShelfRun'];
export type ShelfAnswer = Schemas['Shelf'];
export type CheckAnswer = Schemas['Check'];
export type CalcAnswer = Schemas['CalcAnswer'];
export type SoleraTurn = Schemas['SoleraTurn'];
export type SoleraAnswer = Schemas['Solera'];
export type ChangeSide = Schemas['ChangeSide'];
export type ChangeAnswer = Schemas['ChangeAnswer'];
export type AgeFigure = Schemas['AgeFigure'];
export type AgeAnswer = Schemas['AgeAnswer'];
export type SheetAnswer = Schemas['SheetAnswer'];
export type ImportAnswer = Schemas['ImportAnswer'];
// What can be chosen, with the few figures a form needs.
export type TablesAnswer = Schemas['Choices'];
