// Age to lightness, the same in every drawing: pale is young, dark is old, in both schemes.

export type Scheme = 'light' | 'dark';

const k_half_way_years = 2.2;
const k_ends: Record<Scheme, { young: string; old: string }> = {
  light: { young: '#fbf7ea', old: '#2b2620' },
  dark: { young: '#f0ecdf', old: '#2c363b' },
};

// How old a liquid looks, 0 (just brewed) to 100; half way after 2.2 years. Below zero counts as zero.
export function agePercent(years: number): number {
  if (!(years > 0)) return 0;
  return Math.round(100 * (1 - 2 ** (-years / k_half_way_years)));
}

// The fill for an age: a custom property, so that scheme and print change it without a redraw.
export function ageFill(years: number): string {
  return `var(--age-${agePercent(years)})`;
}

type Triple = [number, number, number];

function toLinear(hex: string): Triple {
  const channel = (at: number) => {
    const c = parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  };
  return [channel(1), channel(3), channel(5)];
}

function toHex(linear: Triple): string {
  return `#${linear
    .map((c) => {
      const s = c <= 0.0031308 ? 12.92 * c : 1.055 * c ** (1 / 2.4) - 0.055;
      return Math.round(255 * Math.min(1, Math.max(0, s)))
        .toString(16)
        .padStart(2, '0');
    })
    .join('')}`;
}

// Oklab, as CSS Color 4 defines it (W3C, section 9.4), from and to linear sRGB.
function toOklab([r, g, b]: Triple): Triple {
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ];
}

function fromOklab([L, a, b]: Triple): Triple {
  const l = (L + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const m = (L - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const s = (L - 0.0894841775 * a - 1.291485548 * b) ** 3;
  return [
    4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
    -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
    -0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s,
  ];
}

// color-mix(in oklab, young, old p%), worked out for browsers that cannot.
export function ageHex(percent: number, scheme: Scheme): string {
  const young = toOklab(toLinear(k_ends[scheme].young));
  const old = toOklab(toLinear(k_ends[scheme].old));
  const t = percent / 100;
  return toHex(fromOklab(young.map((v, i) => v * (1 - t) + (old[i] ?? 0) * t) as Triple));
}

// The style sheet of all ages (ages.css); a test holds that file to it.
export function agesSheet(): string {
  const list = (scheme: Scheme) =>
    Array.from({ length: 101 }, (_, p) => `  --age-${p}: ${ageHex(p, scheme)};`).join('\n');
  return `/* Made by agesSheet() in lightness.ts: npm run ages */\n:root {\n${list('light')}\n}\n\n:root[data-scheme='dark'] {\n${list('dark')}\n}\n`;
}
