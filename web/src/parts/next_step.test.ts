import { describe, expect, it } from 'vitest';
import { pageStep } from './next_step';

describe('a next step', () => {
  it('names places of the page', () => {
    expect(pageStep('Print a new label for those on hand: undercroft label AMB-3. Tell whoever has the others, then: undercroft acknowledge AMB-3 "they know".')).toBe(
      'Print a new label for those on hand (Shelf, AMB-3, its label). Tell whoever has the others, then acknowledge it (Shelf, AMB-3).',
    );
    expect(pageStep('Do not touch them warm. Once you know what to do: undercroft acknowledge ST-4 "what was decided".')).toBe(
      'Do not touch them warm. Once you know what to do, acknowledge it (Shelf, ST-4).',
    );
  });
  it('says whose words they are where the page has no place', () => {
    expect(pageStep('Say --to VESSEL for the last pull, or --dump for what is poured away.')).toBe(
      'In the words of the command line: Say --to VESSEL for the last pull, or --dump for what is poured away.',
    );
  });
  it('leaves plain words alone', () => {
    expect(pageStep('Take less.')).toBe('Take less.');
    expect(pageStep('')).toBe('');
  });
});
