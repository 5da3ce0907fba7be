// Days as the API writes them (2026-03-14) and as a keeper reads them.

const k_day_ms = 86_400_000;

// Midnight UTC of an ISO day; NaN when it is none.
export function dayMs(day: string): number {
  const m = /^(\d{4})-(\d{2})-(\d{2})/.exec(day);
  if (!m) return NaN;
  const ms = Date.UTC(Number(m[1]), Number(m[2]) - 1, Number(m[3]));
  return new Date(ms).toISOString().startsWith(`${m[1]}-${m[2]}-${m[3]}`) ? ms : NaN;
}

export function isoDay(ms: number): string {
  return new Date(ms).toISOString().slice(0, 10);
}

export function daysBetween(from: string, to: string): number {
  return Math.round((dayMs(to) - dayMs(from)) / k_day_ms);
}

export function addDays(day: string, days: number): string {
  return isoDay(dayMs(day) + days * k_day_ms);
}

// "17 Oct", and the year where it is not this one.
export function showDay(day: string, today: string, locale?: string): string {
  const ms = dayMs(day);
  if (Number.isNaN(ms)) return day;
  const same_year = day.slice(0, 4) === today.slice(0, 4);
  return new Intl.DateTimeFormat(locale, {
    day: 'numeric',
    month: 'short',
    timeZone: 'UTC',
    ...(same_year ? {} : { year: 'numeric' }),
  }).format(ms);
}

// "Jan 2026".
export function showMonth(day: string, locale?: string): string {
  const ms = dayMs(day);
  if (Number.isNaN(ms)) return day;
  return new Intl.DateTimeFormat(locale, { month: 'short', year: 'numeric', timeZone: 'UTC' }).format(ms);
}

// Under an axis: the year where one begins, else the month, else the day.
export function showTick(when: Date, locale?: string): string {
  if (when.getUTCDate() > 1) return showDay(isoDay(+when), isoDay(+when), locale);
  if (when.getUTCMonth() > 0) return new Intl.DateTimeFormat(locale, { month: 'short', timeZone: 'UTC' }).format(when);
  return String(when.getUTCFullYear());
}

// "today", "9 days ago", "in 3 days".
export function showAgo(days_ago: number): string {
  if (days_ago === 0) return 'today';
  const n = Math.abs(days_ago);
  const span = n === 1 ? '1 day' : `${n} days`;
  return days_ago > 0 ? `${span} ago` : `in ${span}`;
}

// The brew day of a part, from its age on a day.
export function brewDay(on: string, age_years: number): string {
  return isoDay(dayMs(on) - age_years * 365.25 * k_day_ms);
}
