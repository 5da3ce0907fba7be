import { expect, test } from 'vitest';
import type { Run } from '../../api/types';
import { findRun, scannedRun } from './lookup';

const runs = ['AMB-1', 'AMB-2-PLUM', 'AMB-3', 'OPR-1', 'OPR-11'].map((run, i) => ({ run, number: i + 1 }) as Run);

test('a code is found however it is typed', () => {
  expect(findRun(runs, 'amb 3').run?.run).toBe('AMB-3');
  expect(findRun(runs, 'plum').run?.run).toBe('AMB-2-PLUM');
});

test('a whole code is found though another begins with it', () => {
  expect(findRun(runs, 'OPR-1').run?.run).toBe('OPR-1');
});

test('a scanned label is found by the code in it, and by no part of a longer one', () => {
  expect(scannedRun(runs, 'Undercroft OPR-11\nOld Peat Row, 330 mL').run?.run).toBe('OPR-11');
  expect(scannedRun(runs, 'UC1;AMB-2-PLUM;2025-08-14').run?.run).toBe('AMB-2-PLUM');
  expect(scannedRun(runs, 'https://elsewhere.example/AMB-33').run).toBeNull();
});

test('what fits several names them and chooses none', () => {
  expect(findRun(runs, 'amb')).toEqual({ run: null, near: ['AMB-1', 'AMB-2-PLUM', 'AMB-3'] });
  expect(findRun(runs, 'zz').near).toHaveLength(5);
});
