// Answers of the founding designer and of the five questions, and the booking of what they drafted.
import { client, type WhichCellar } from '../api/client';
import type { components } from '../api/schema';
import type { SittingAnswer } from '../api/types';

type Schemas = components['schemas'];

export type Design = Schemas['DesignLine'];
export type DesignAnswer = Schemas['DesignAnswer'];
export type RememberAnswer = Schemas['Remembered'];

// Books what was shown under a key of its own: sent again, it is booked once.
export function bookDrafted(
  cellar: WhichCellar,
  key: string,
  drafted: Schemas['Drafted'],
  shown: SittingAnswer,
): Promise<SittingAnswer> {
  const expected = { sequence: shown.book.sequence, touched: shown.touched };
  return client.post<SittingAnswer>('/sittings', cellar, { ...drafted, key, expected });
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
