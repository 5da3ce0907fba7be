import { describe, expect, it } from 'vitest';
import { addDays, brewDay, dayMs, daysBetween, showAgo, showDay, showMonth, showTick } from './days';

describe('days', () => {
  it('are read as ISO days and refused when there is no such day', () => {
    expect(dayMs('2026-03-14')).toBe(Date.UTC(2026, 2, 14));
    expect(dayMs('2026-02-30')).toBeNaN();
    expect(dayMs('14.3.2026')).toBeNaN();
  });

  it('count across a change of summer time and a leap day', () => {
    expect(daysBetween('2026-03-28', '2026-03-30')).toBe(2);
    expect(daysBetween('2024-02-28', '2024-03-01')).toBe(2);
    expect(addDays('2026-12-31', 1)).toBe('2027-01-01');
  });

  it('are written as in the locale, with the year where it is another', () => {
    expect(showDay('2026-10-17', '2026-11-02', 'en-GB')).toBe('17 Oct');
    expect(showDay('2025-10-17', '2026-11-02', 'en-GB')).toBe('17 Oct 2025');
    expect(showDay('2026-10-17', '2026-11-02', 'en-US')).toBe('Oct 17');
    expect(showDay('some time', '2026-11-02', 'en-GB')).toBe('some time');
    expect(showMonth('2026-01-24', 'en-GB')).toBe('Jan 2026');
  });

  it('stand under an axis as year, month or day', () => {
    const ticks = ['2026-01-01', '2026-04-01', '2026-04-12'].map((d) => showTick(new Date(`${d}T00:00:00Z`), 'en-GB'));
    expect(ticks).toEqual(['2026', 'Apr', '12 Apr']);
    expect(showTick(new Date('2026-03-01T00:00:00Z'), 'de')).toMatch(/^Mär/);
  });

  it('say how long ago', () => {
    expect([0, 1, 9, -3].map(showAgo)).toEqual(['today', '1 day ago', '9 days ago', 'in 3 days']);
    expect(brewDay('2026-11-02', 1)).toBe('2025-11-01');
  });
});
