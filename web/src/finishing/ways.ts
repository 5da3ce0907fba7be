// Words and rows of ranked ways to finish a pull.
import type { FinishAnswer } from '../api/answers';

type Way = FinishAnswer['options'][number];

// "12 %", and "0.8 %" below ten.
export function chanceWords(chance: number): string {
  const percent = 100 * chance;
  return `${percent >= 9.95 || percent === 0 ? percent.toFixed(0) : percent.toFixed(1)} %`;
}

export function daysWords(days: number): string {
  if (days < 0.5) return 'at once';
  return days < 60 ? `${Math.round(days)} days` : `${(days / 30.44).toFixed(1)} months`;
}

export function moveWords(moves: Way['moves']): string {
  const k_most = 6;
  return moves
    .slice(0, k_most)
    .map((m) => `${m.attribute.replaceAll('_', ' ')} ${m.points < 0 ? '−' : '+'}${Math.abs(m.points).toFixed(1)} ± ${m.sd.toFixed(1)}`)
    .join(', ');
}

// The first dozen, and leaving it alone wherever it stands; each with its place.
export function shownRows(options: Way[], all: boolean): { option: Way; rank: number }[] {
  const k_first = 12;
  return options.map((option, i) => ({ option, rank: i + 1 })).filter((row) => all || row.rank <= k_first || row.option.technique === 'leave');
}
