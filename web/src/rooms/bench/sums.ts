// Every sum as a form: its fields as docs/cli.md names them, and an example to begin with (invented figures).

export interface SumField {
  name: string; // as the API takes it
  label: string;
  hint?: string;
  unit?: string; // what a bare number means
  kind?: 'text' | 'lines' | 'flag' | 'one'; // lines: several, one a line; one: of `options`
  options?: string[]; // or, for text, words to choose from
  example?: string;
  more?: boolean; // behind "More figures"
}

export interface Sum {
  id: string; // as in /calc/{id}
  name: string;
  about: string;
  group: string;
  fields: SumField[];
}

const alcohol: SumField = { name: 'alcohol', label: 'alcohol', unit: '%', hint: 'by volume; empty: 5 %', more: true };
const temperature: SumField = { name: 'temperature', label: 'temperature', unit: 'C', hint: 'empty: 20 °C', more: true };
const altitude: SumField = { name: 'altitude', label: 'altitude', unit: 'm', hint: 'empty: sea level', more: true };
const ta_end: SumField = { name: 'ta_end', label: 'titrated to pH', hint: 'empty: 8.2', more: true };
const acetic: SumField = { name: 'acetic', label: 'acetic acid, measured', unit: 'g/L', more: true };
const buffer: SumField = { name: 'buffer', label: 'buffer', hint: 'a multiple of all-malt wort of SG 1.0484; empty: 1', more: true };
const no_activity: SumField = { name: 'no_activity', label: 'by concentration, not activity, of the acid', kind: 'flag', more: true };

export const k_sums: Sum[] = [
  {
    id: 'gravity',
    name: 'Gravity',
    about: 'gravity, extract and index; a hydrometer’s reading corrected',
    group: 'Strength',
    fields: [
      { name: 'gravity', label: 'gravity', example: '1.046', hint: '1.046 or 11.4 P' },
      { name: 'read_at', label: 'read at', unit: 'C', example: '28', hint: 'temperature of the sample' },
      { name: 'marked_at', label: 'the hydrometer is marked for', unit: 'C', hint: 'empty: 20 °C' },
    ],
  },
  {
    id: 'alcohol',
    name: 'Alcohol',
    about: 'alcohol, extracts and attenuation',
    group: 'Strength',
    fields: [
      { name: 'og', label: 'original gravity', example: '1.052', hint: 'of the wort' },
      { name: 'gravity', label: 'gravity now', example: '1.008' },
      { name: 'alcohol', label: 'alcohol', unit: '%', hint: 'instead of the original gravity, which follows', more: true },
      { name: 'brix', label: 'refractometer in the beer', unit: 'Brix', hint: 'instead of the original gravity', more: true },
      { name: 'attenuation', label: 'apparent attenuation', unit: '%', hint: 'with the original gravity: where that leads', more: true },
    ],
  },
  {
    id: 'mix',
    name: 'Mixing',
    about: 'gravity, alcohol and volume of liquids poured together',
    group: 'Strength',
    fields: [{ name: 'part', label: 'parts, one a line', kind: 'lines', example: '20 L, gravity 1.006, alcohol 6\n4 L', hint: 'a volume alone is water' }],
  },
  {
    id: 'ph',
    name: 'pH of acids',
    about: 'pH, titratable acidity and sourness of a mixture of acids',
    group: 'Acids',
    fields: [
      { name: 'lactic', label: 'lactic acid', unit: 'g/L', example: '5' },
      { name: 'acetic', label: 'acetic acid', unit: 'g/L', example: '0.4' },
      { name: 'malic', label: 'malic acid', unit: 'g/L' },
      { name: 'citric', label: 'citric acid', unit: 'g/L' },
      { name: 'tartaric', label: 'tartaric acid', unit: 'g/L', more: true },
      { name: 'succinic', label: 'succinic acid', unit: 'g/L', more: true },
      { name: 'phosphoric', label: 'phosphoric acid', unit: 'g/L', more: true },
      { name: 'co2', label: 'dissolved CO2', unit: 'g/L', more: true },
      { name: 'so2', label: 'free SO2', unit: 'mg/L', more: true },
      { name: 'buffer', label: 'buffer', example: '1', hint: 'a multiple of all-malt wort of SG 1.0484; empty: 0' },
      { name: 'wort_ph', label: 'pH before its acids came', example: '4.4' },
      { name: 'strong_ions', label: 'strong ions', unit: '', hint: 'mEq/L, instead of the pH before', more: true },
      { name: 'potassium', label: 'potassium of fruit', unit: 'mg/L', more: true },
      { name: 'hops', label: 'dry hops', unit: 'g/L', hint: 'they take up acid', more: true },
      { name: 'salt', label: 'other salt', hint: 'mmol/L', more: true },
      { name: 'alcohol', label: 'alcohol', unit: '%', example: '6', hint: 'by volume; empty: 0' },
      temperature,
      ta_end,
      no_activity,
    ],
  },
  {
    id: 'acids',
    name: 'Acids of a pH',
    about: 'what is in a liquid of that pH and titratable acidity',
    group: 'Acids',
    fields: [
      { name: 'ph', label: 'pH, read', example: '3.4' },
      { name: 'ta', label: 'titratable acidity, read', unit: 'g/L', example: '6.2', hint: 'as lactic acid' },
      { ...alcohol, example: '6', more: false },
      ta_end,
      acetic,
      buffer,
      temperature,
      no_activity,
    ],
  },
  {
    id: 'dose',
    name: 'A dose of acid',
    about: 'grams of an acid or a carbonate to reach a pH or an acidity',
    group: 'Acids',
    fields: [
      {
        name: 'acid',
        label: 'of',
        example: 'lactic',
        options: ['lactic', 'acetic', 'malic', 'citric', 'tartaric', 'phosphoric', 'calcium carbonate', 'potassium bicarbonate', 'potassium carbonate'],
      },
      { name: 'volume', label: 'to be dosed', unit: 'L', example: '20' },
      { name: 'ph', label: 'pH, read', example: '3.7' },
      { name: 'ta', label: 'titratable acidity, read', unit: 'g/L', example: '4.5' },
      { name: 'to_ta', label: 'wanted acidity', unit: 'g/L', example: '6' },
      { name: 'to_ph', label: 'or wanted pH' },
      { name: 'strength', label: 'strength of the product', unit: '%', hint: 'by mass; empty: as usually sold', more: true },
      ta_end,
      acetic,
      alcohol,
      buffer,
      temperature,
    ],
  },
  {
    id: 'blend',
    name: 'pH of a blend',
    about: 'pH, acidity and sourness of a blend, by charge',
    group: 'Acids',
    fields: [
      {
        name: 'part',
        label: 'parts, one a line',
        kind: 'lines',
        example: '20 L, ph 3.3, ta 7\n10 L, ph 4.2, ta 2.1, alcohol 6',
        hint: 'also acetic, alcohol, buffer',
      },
      ta_end,
      temperature,
    ],
  },
  {
    id: 'gas',
    name: 'Gas in a bottle',
    about: 'the gas that can still come, and the pressure it makes',
    group: 'Gas',
    fields: [
      { name: 'container', label: 'container', example: 'bottle_sparkling_750' },
      { name: 'gravity', label: 'gravity now', example: '1.006' },
      { name: 'original_gravity', label: 'original gravity', example: '1.048' },
      { name: 'cultures', label: 'cultures in it, one a line', kind: 'lines', example: 'mixed sour culture' },
      { name: 'priming', label: 'priming sugar', hint: '5 g/L' },
      { name: 'store', label: 'warmest store', unit: 'C', hint: 'or cellar, flat, attic, post, car; empty: 25 °C' },
      { name: 'horizon', label: 'how long it will stand', hint: '2 years; empty: 12 months' },
      { name: 'limit', label: 'maker’s pressure figure', unit: 'bar' },
      { name: 'given_away', label: 'given away: it meets 50 °C', kind: 'flag' },
      { name: 'stable', label: 'gravity read equal over the days its culture needs', kind: 'flag' },
      { name: 'purged', label: 'head space purged', kind: 'flag', more: true },
      { name: 'forced', label: 'where a forced test came to rest', hint: 'gravity of a part kept warm with more yeast', more: true },
      { name: 'canary', label: 'canary bottle, one look a line', kind: 'lines', hint: '14 days, 2.1 bar; or 14 days, squeeze 3', more: true },
      { name: 'alcohol', label: 'alcohol', unit: '%', hint: 'empty: from the gravities', more: true },
      { name: 'fill', label: 'fill', hint: 'empty: the nominal volume', more: true },
      { name: 'head_space', label: 'head space', unit: '%', more: true },
      { name: 'fermentation_temperature', label: 'warmest since it finished', unit: 'C', hint: 'empty: 20 °C', more: true },
      { name: 'malic', label: 'malic acid', unit: 'g/L', more: true },
      { name: 'citric', label: 'citric acid', unit: 'g/L', more: true },
      { name: 'sorbitol', label: 'sorbitol', unit: 'g/L', more: true },
      altitude,
    ],
  },
  {
    id: 'priming',
    name: 'Priming of bottles',
    about: 'sugar, honey, wort or young beer for a carbonation, and how many bottles',
    group: 'Gas',
    fields: [
      { name: 'co2', label: 'wanted', unit: 'vol', example: '2.6', hint: '2.6 vol or 5.1 g/L' },
      { name: 'volume', label: 'beer', unit: 'L', example: '20' },
      { name: 'warmest', label: 'warmest since it finished', unit: 'C', example: '19', hint: 'empty: 20 °C' },
      { name: 'fill', label: 'fill of a bottle', example: '750 mL', hint: 'says how many, and what is left over' },
      { name: 'measured', label: 'CO2 in it, measured', unit: 'vol', hint: 'instead of the warmest', more: true },
      { name: 'wort', label: 'fresh wort of', hint: 'gravity: 1.048', more: true },
      { name: 'wort_ends', label: 'it would end at', hint: '1.010', more: true },
      { name: 'young', label: 'young beer of', hint: 'gravity now: 1.020', more: true },
      { name: 'young_ends', label: 'it would end at', hint: '1.008', more: true },
      { name: 'ph', label: 'pH', hint: 'below 3.4 new yeast has to be made used to it', more: true },
      { ...alcohol },
      altitude,
    ],
  },
  {
    id: 'carbonation',
    name: 'Carbonation of a keg',
    about: 'pressure for a carbonation, or the carbonation under a pressure',
    group: 'Gas',
    fields: [
      { name: 'co2', label: 'wanted', unit: 'vol', example: '2.4', hint: '2.4 vol or 4.7 g/L' },
      { name: 'pressure', label: 'or gauge pressure', unit: 'bar', hint: 'instead of what is wanted' },
      { name: 'temperature', label: 'of the beer', unit: 'C', example: '6' },
      alcohol,
      { name: 'gravity', label: 'gravity', hint: 'with the alcohol it says the extract', more: true },
      altitude,
    ],
  },
  {
    id: 'pressure',
    name: 'Pressure in a closed bottle',
    about: 'CO2, air and vapour together',
    group: 'Gas',
    fields: [
      { name: 'co2', label: 'CO2 in all', unit: 'vol', example: '3', hint: 'per litre of beer: 3 vol or 6 g/L' },
      { name: 'head_space', label: 'head space', unit: '%', example: '4' },
      { name: 'temperature', label: 'warmest', unit: 'C', example: '30', hint: 'empty: 20 °C' },
      { name: 'air', label: 'air in the head space', kind: 'one', options: ['trapped', 'purged', 'eaten'] },
      { name: 'filled_at', label: 'filled at', unit: 'C', hint: 'empty: 20 °C', more: true },
      alcohol,
      { name: 'gravity', label: 'gravity', hint: 'with the alcohol it says the extract', more: true },
      altitude,
    ],
  },
  {
    id: 'dissolved',
    name: 'CO2 nobody measured',
    about: 'CO2 left in beer, and what malic acid may add',
    group: 'Gas',
    fields: [
      { name: 'warmest', label: 'warmest since it finished', unit: 'C', example: '20' },
      { name: 'coolest', label: 'coolest of late, while it worked', unit: 'C', example: '8' },
      { name: 'malic', label: 'malic acid', unit: 'g/L', hint: 'that bacteria may still turn' },
      altitude,
    ],
  },
  {
    id: 'fruit',
    name: 'Fruit',
    about: 'sugar, water, acid and both ways of meeting it, with dates',
    group: 'Fruit, colour, hops',
    fields: [
      { name: 'fruit', label: 'which fruit', example: 'plum' },
      { name: 'mass', label: 'how much', unit: 'kg', example: '4' },
      { name: 'volume', label: 'beer', unit: 'L', example: '18' },
      { name: 'gravity', label: 'its gravity', example: '1.006' },
      { name: 'alcohol', label: 'its alcohol', unit: '%', example: '5.8' },
      { name: 'pull', label: 'day the beer is pulled', hint: '2026-11-20; empty: when the fruit is ready', more: true },
      { name: 'fruit_gravity', label: 'measured juice', unit: 'Brix', hint: 'empty: the table’s', more: true },
      { name: 'enzyme_dose', label: 'pectinase', hint: 'mL or g per kg, by the packet', more: true },
      { name: 'nutrient_dose', label: 'nutrient', hint: 'g per litre of juice, by the packet', more: true },
      { name: 'hold_up', label: 'held back at racking', unit: '%', hint: 'of the fruit’s mass; empty: 10 %', more: true },
    ],
  },
  {
    id: 'extraction',
    name: 'A spice or wood over days',
    about: 'how strong it has become, and when to lift it out',
    group: 'Finishing',
    fields: [
      { name: 'what', label: 'what', example: 'vanilla' },
      { name: 'dose', label: 'dose', example: '0.8 g/L', hint: 'empty: the middle of the table' },
      { name: 'wanted', label: 'points that are wanted', example: '3' },
      { name: 'tasted', label: 'tasted on the way, one a line', kind: 'lines', hint: '5 days, 2' },
      { name: 'attribute', label: 'note', hint: 'empty: what it moves most', more: true },
    ],
  },
  {
    id: 'trial',
    name: 'A glass to the batch',
    about: 'what was stirred into a glass, in the portion; and the next glass',
    group: 'Finishing',
    fields: [
      { name: 'glass', label: 'glass', example: '100 mL' },
      { name: 'added', label: 'stirred in', example: '0.4 mL' },
      { name: 'strength', label: 'its strength', example: '50 g/L', hint: 'of spice steeped in a litre, acid, sugar' },
      { name: 'volume', label: 'of the portion', example: '20 L' },
      { name: 'liked', label: 'glasses so far, one a line', kind: 'lines', hint: '0.2 g/L, 7' },
      { name: 'alcohol', label: 'of a tincture', unit: '%', more: true },
      { name: 'pipette', label: 'the pipette may be off by', hint: 'empty: 0.02 mL', more: true },
    ],
  },
  {
    id: 'threshold',
    name: 'Is it noticed?',
    about: 'an amount beside published thresholds',
    group: 'Tasting',
    fields: [
      { name: 'of', label: 'compounds, one a line', kind: 'lines', example: 'acetic acid, 0.7 g/L', hint: 'a name, a comma, how much' },
    ],
  },
  {
    id: 'tasting-test',
    name: 'A tasting test',
    about: 'is there a difference, and could the test have shown it?',
    group: 'Tasting',
    fields: [
      { name: 'kind', label: 'test', example: 'triangle', options: ['triangle', 'duo-trio', 'paired', 'ranking'] },
      { name: 'tasters', label: 'answers', example: '24' },
      { name: 'correct', label: 'right ones', example: '15', hint: 'of a triangle or duo-trio' },
      { name: 'preferred', label: 'for one of the two', hint: 'of a paired test, instead' },
      { name: 'two_sided', label: 'either might have been preferred', kind: 'flag' },
      { name: 'ranks', label: 'orders, one a taster', kind: 'lines', hint: 'of a ranking, instead: Ines: A 1, B 3, C 2', more: true },
      { name: 'alpha', label: 'chance of a false difference', unit: '%', hint: 'empty: 5 %', more: true },
      { name: 'noticing', label: 'share of tasters that it should show', unit: '%', hint: 'empty: 30 %', more: true },
    ],
  },
  {
    id: 'colour',
    name: 'Colour',
    about: 'colour of malt, of a blend, on both scales',
    group: 'Fruit, colour, hops',
    fields: [
      { name: 'malt', label: 'malts, one a line', kind: 'lines', example: '4 kg, ebc 6\n0.3 kg, ebc 150' },
      { name: 'volume', label: 'of wort', unit: 'L', example: '22' },
      { name: 'part', label: 'or parts of a blend, one a line', kind: 'lines', hint: '10 L, ebc 20', more: true },
      { name: 'ebc', label: 'or EBC, told in SRM', more: true },
      { name: 'srm', label: 'or SRM, told in EBC', more: true },
    ],
  },
  {
    id: 'bitterness',
    name: 'Bitterness',
    about: 'bitterness from the kettle, or what years leave of it',
    group: 'Fruit, colour, hops',
    fields: [
      { name: 'hop', label: 'hops, one a line', kind: 'lines', example: '30 g, alpha 5, minutes 60', hint: 'and at 80 C, where it did not boil' },
      { name: 'volume', label: 'of wort', unit: 'L', example: '20' },
      { name: 'ibu', label: 'or IBU of a beer to be kept', more: true },
      { name: 'years', label: 'kept, years', more: true },
      temperature,
    ],
  },
];

// What is sent: empty fields left out, bare numbers with the unit of their field, lines as a list.
export function sumBody(sum: Sum, typed: Record<string, string>, withUnit: (text: string, unit: string) => string): Record<string, unknown> {
  const body: Record<string, unknown> = {};
  for (const field of sum.fields) {
    const text = (typed[field.name] ?? '').trim();
    if (!text) continue;
    if (field.kind === 'flag') body[field.name] = true;
    else if (field.kind === 'lines') body[field.name] = text.split('\n').map((l) => l.trim()).filter(Boolean);
    else body[field.name] = withUnit(text, field.unit ?? '');
  }
  return body;
}

export function exampleOf(sum: Sum): Record<string, string> {
  return Object.fromEntries(sum.fields.filter((f) => f.example).map((f) => [f.name, f.example ?? '']));
}
