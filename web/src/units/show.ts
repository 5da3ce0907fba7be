// A number as this keeper reads it: converted to their units, with as many decimals as its spread allows.
import type { Choices } from '../settings/settings.svelte';

export type UnitChoices = Pick<Choices, 'volume' | 'temperature' | 'gravity' | 'mass' | 'pressure' | 'gas'>;

export interface Shown {
  number: string; // "53.2"
  spread: string; // "0.3"; empty: none stated
  unit: string; // "L"
}

// Exact by definition: the US gallon (231 cubic inches), the avoirdupois ounce, the pound-force per square inch
// (NIST Special Publication 811, appendix B). CO2: 1.976 g/L of gas at 0 C and 1 atm, so 1 vol is 1.976 g/L
// (CRC Handbook, density of carbon dioxide).
const k_litres_per_us_gallon = 3.785411784;
const k_grams_per_ounce = 28.349523125;
const k_psi_per_bar = 14.5037738;
const k_co2_g_per_l_per_volume = 1.976;

// Plato of a specific gravity: the cubic fit to the ASBC's table (ASBC Methods of Analysis, table 1).
export function plato(sg: number): number {
  return -616.868 + 1111.14 * sg - 630.272 * sg * sg + 135.997 * sg * sg * sg;
}

function platoSlope(sg: number): number {
  return 1111.14 - 2 * 630.272 * sg + 3 * 135.997 * sg * sg;
}

interface Converted {
  value: number;
  sd: number;
  unit: string;
  usual_decimals: number;
}

function convert(value: number, sd: number, unit: string, choices: UnitChoices): Converted {
  const times = (factor: number, to: string, usual_decimals: number): Converted => ({
    value: value * factor,
    sd: sd * factor,
    unit: to,
    usual_decimals,
  });
  switch (unit) {
    case 'L':
      if (choices.volume === 'US gal') return times(1 / k_litres_per_us_gallon, 'US gal', value < 10 ? 3 : 2);
      return times(1, 'L', Math.abs(value) < 1 && value !== 0 ? 3 : Math.abs(value) < 10 && value !== 0 ? 2 : 1);
    case 'C':
    case '°C':
      if (choices.temperature === 'F') return { value: value * 1.8 + 32, sd: sd * 1.8, unit: '°F', usual_decimals: 0 };
      return times(1, '°C', 1);
    case 'SG':
      if (choices.gravity === 'P') return { value: plato(value), sd: sd * platoSlope(value), unit: '°P', usual_decimals: 1 };
      return { value, sd, unit: 'SG', usual_decimals: 4 };
    case 'g':
      return choices.mass === 'oz' ? times(1 / k_grams_per_ounce, 'oz', 2) : times(1, 'g', value < 10 ? 1 : 0);
    case 'kg':
      return choices.mass === 'oz' ? times(1000 / k_grams_per_ounce, 'oz', 1) : times(1, 'kg', 2);
    case 'bar':
      return choices.pressure === 'psi' ? times(k_psi_per_bar, 'psi', 0) : times(1, 'bar', 1);
    case 'vol':
      return choices.gas === 'g/L' ? times(k_co2_g_per_l_per_volume, 'g/L CO2', 1) : times(1, 'vol', 1);
    case 'pH':
      return { value, sd, unit: '', usual_decimals: 2 };
    case 'y':
      return times(1, 'y', value < 10 ? 1 : 0);
    case '%':
    case '% vol':
      return times(1, unit, 1);
    default:
      return times(1, unit, 1);
  }
}

// The spread in at most two figures, and how many decimals that leaves.
export function roundSpread(sd: number): { text: string; decimals: number } {
  const exponent = Math.floor(Math.log10(sd));
  const lead = sd / 10 ** exponent;
  // A first figure of one is too coarse alone: 0.14 is neither 0.1 nor 0.2.
  const figures = lead < 1.95 ? 2 : 1;
  const decimals = Math.max(0, figures - 1 - exponent);
  return { text: sd.toFixed(decimals), decimals };
}

export function show(
  value: number | string,
  unit: string,
  choices: UnitChoices,
  more: { sd?: number; decimals?: number } = {},
): Shown {
  const number = Number(value);
  const c = convert(number, more.sd ?? 0, unit, choices);
  if (c.sd > 0) {
    const spread = roundSpread(c.sd);
    return { number: c.value.toFixed(spread.decimals), spread: spread.text, unit: c.unit };
  }
  const same_unit = c.value === number;
  let decimals = same_unit && more.decimals !== undefined ? more.decimals : c.usual_decimals;
  if (typeof value === 'string' && same_unit && more.decimals === undefined && unit !== 'L') {
    decimals = value.split('.')[1]?.length ?? 0; // as it was written down
  }
  return { number: c.value.toFixed(decimals), spread: '', unit: c.unit };
}

export function showWords(shown: Shown): string {
  return [shown.number, shown.spread && `± ${shown.spread}`, shown.unit].filter(Boolean).join(' ');
}

// The units a keeper types a quantity in, as the program reads them.
export function typedUnit(kind: 'volume' | 'temperature' | 'gravity' | 'mass' | 'pressure' | 'gas' | 'ta', choices: UnitChoices): string {
  switch (kind) {
    case 'volume':
      return choices.volume;
    case 'temperature':
      return choices.temperature;
    case 'gravity':
      return choices.gravity === 'P' ? 'P' : '';
    case 'mass':
      return choices.mass;
    case 'pressure':
      return choices.pressure;
    case 'gas':
      return choices.gas;
    case 'ta':
      return 'g/L';
  }
}

// A bare number gets the unit of its field; whatever says its own unit, or is words, goes as it was typed.
export function withUnit(typed: string, unit: string): string {
  const text = typed.trim();
  return unit && /^[+-]?\d+([.,]\d+)?$/.test(text) ? `${text} ${unit}` : text;
}

// Litres of what is typed, as far as the page itself can tell (the program has the last word); null otherwise.
export function litresTyped(typed: string, choices: UnitChoices): number | null {
  const m = /^(\d+(?:[.,]\d+)?)\s*(L|l|mL|ml|US gal)?$/.exec(typed.trim());
  if (!m) return null;
  const value = Number(m[1]?.replace(',', '.'));
  const unit = m[2] ?? choices.volume;
  if (unit === 'US gal') return value * k_litres_per_us_gallon;
  return unit.toLowerCase() === 'ml' ? value / 1000 : value;
}

// A volume in the keeper's unit as text for a field: "18", "4.75".
export function volumeForField(litres: number, choices: UnitChoices): string {
  const in_unit = choices.volume === 'US gal' ? litres / k_litres_per_us_gallon : litres;
  return String(Number(in_unit.toFixed(2)));
}
