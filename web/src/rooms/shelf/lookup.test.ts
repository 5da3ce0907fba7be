import { expect, test } from 'vitest';
import type { Run } from '../../api/types';
import { findRun } from './lookup';

const runs = ['AMB-1', 'AMB-2-PLUM', 'AMB-3', 'OPR-1', 'OPR-11'].map((run, i) => ({ run, number: i + 1 }) as Run);

test('a code is found however it is typed', () => {
  expect(findRun(runs, 'amb 3').run?.run).toBe('AMB-3');
  expect(findRun(runs, 'plum').run?.run).toBe('AMB-2-PLUM');
});

test('a whole code is found though another begins with it', () => {
  expect(findRun(runs, 'OPR-1').run?.run).toBe('OPR-1');
});

test('what fits several names them and chooses none', () => {
  expect(findRun(runs, 'amb')).toEqual({ run: null, near: ['AMB-1', 'AMB-2-PLUM', 'AMB-3'] });
  expect(findRun(runs, 'zz').near).toHaveLength(5);
});
