// Where the band, what was found and its spread (twice its standard deviation) lie on a strip of 0 to 100.
export interface StripFigure {
  low: number | null;
  high: number | null;
  mean: number | null;
  sd: number;
}
export interface Strip {
  band: [number, number];
  found: number;
  spread: [number, number];
}

export function strip(f: StripFigure): Strip | null {
  if (f.mean === null) return null;
  const ends = [f.low, f.high, f.mean - 2 * f.sd, f.mean + 2 * f.sd].filter((one): one is number => one !== null);
  const low = Math.min(...ends);
  const high = Math.max(...ends);
  const room = Math.max((high - low) * 0.15, 1e-6);
  const at = (value: number) => ((value - low + room) / (high - low + 2 * room)) * 100;
  return {
    band: [f.low === null ? 0 : at(f.low), f.high === null ? 100 : at(f.high)],
    found: at(f.mean),
    spread: [at(f.mean - 2 * f.sd), at(f.mean + 2 * f.sd)],
  };
}
