// Answers of the founding designer and of the five questions.
import type { Amount, BookState, Caution, SittingAnswer } from '../api/types';

export interface Design {
  stages: number;
  abreast: number;
  vessel: Amount;
  ullage: Amount;
  price_each: number;
  interval_years: number;
  share: number;
  pull: Amount;
  yearly_litres: number;
  age_at_wait: number;
  settled_years: number;
  turns_to_settle: number | null;
  reached: boolean;
  hands_on_days: number;
  price: number;
  turns: { turn: number; years: number; pulled: Amount; mean_years: number; sd_years: number }[];
}

export interface DesignAnswer {
  convention: string;
  reached: boolean;
  answer: string;
  wait_years: number;
  designs: Design[];
  chosen: number;
  starts: { start: string; turn_reached: number | null; years_reached: number | null; litres_before: number; mean_at_wait: number }[];
  cautions: Caution[];
  sitting: SittingAnswer | null;
}

export interface RememberAnswer {
  book: BookState;
  vessel: string;
  terms: { name: string; value: number | string; unit: string; how: string; source: string }[];
  lots: { name: string; volume: Amount; share: number; brewed_from: string; brewed_to: string; was: string }[];
  sitting: SittingAnswer;
}

export const k_starts: Record<string, string> = {
  plain: 'new beer, then the usual pulls',
  aged_half: 'half of it aged beer',
  aged_full: 'all of it aged beer',
  half_pulls: 'half pulls at first',
  no_pulls: 'no pulls at first',
};

export function everyWords(years: number): string {
  const months = Math.round(years * 12);
  if (months % 12 === 0) return months === 12 ? 'every year' : `every ${months / 12} years`;
  return months === 1 ? 'every month' : `every ${months} months`;
}
