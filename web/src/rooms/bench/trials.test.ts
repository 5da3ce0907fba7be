import { describe, expect, it } from 'vitest';
import { likedText } from './trials';

describe('a glass and how it was liked', () => {
  it('is told as the program reads it, a decimal comma too', () => {
    const pours = [
      { stock: 'Sharp', ml: 40 },
      { stock: 'Soft', ml: 60 },
    ];
    expect(likedText(pours, ' 6,5 ')).toBe('40 mL Sharp, 60 mL Soft: 6.5');
  });
});
