import { describe, expect, test } from 'vitest';
import { guessField, mapPieces, readSheetStart } from './sheet';

describe('a spreadsheet', () => {
  test('commas, semicolons and tabs part its cells, as the header says', () => {
    expect(readSheetStart('Date;SG\n2026-01-02;1,012\n').header).toEqual(['Date', 'SG']);
    expect(readSheetStart('Date;SG\n2026-01-02;1,012\n').rows).toEqual([['2026-01-02', '1,012']]);
    expect(readSheetStart('Date\tSG\r\n2026-01-02\t1.012\r\n').rows).toEqual([['2026-01-02', '1.012']]);
  });
  // RFC 4180, section 2, points 5 to 7: quotes, doubled quotes, and line breaks inside them.
  test('quoted cells keep their commas, quotes and lines', () => {
    const sheet = readSheetStart('a,b\n"x, ""y""","two\nlines"\n3,4\n');
    expect(sheet.rows).toEqual([
      ['x, "y"', 'two\nlines'],
      ['3', '4'],
    ]);
  });
  test('a mark at the start of the file is no part of the first name, and empty lines are no rows', () => {
    const sheet = readSheetStart('\uFEFFDate,pH\n\n2026-01-02,3.4\n\n');
    expect(sheet.header[0]).toBe('Date');
    expect(sheet.count).toBe(1);
  });
});

describe('what its columns are taken for', () => {
  test('a day with a first number over twelve is day before month', () => {
    expect(guessField('Datum', ['3/4/2026', '17/4/2026'])).toBe('date dmy');
    expect(guessField('Date', ['4/17/2026'])).toBe('date mdy');
    expect(guessField('date', ['2026-04-17'])).toBe('date');
  });
  test('what is not known is passed over', () => {
    expect(guessField('Moon', [])).toBe('');
    expect(guessField('SG', [])).toBe('gravity');
  });
  test('a name with a comma stands in quotes', () => {
    expect(mapPieces(['Datum', 'Sour, 0-10', 'x'], ['date dmy', 'score sour', ''])).toEqual(['Datum=date dmy', '"Sour, 0-10=score sour"']);
  });
});
