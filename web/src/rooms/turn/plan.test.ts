import { describe, expect, test } from 'vitest';
import { withUnit } from '../../units/show';
import { emptyPlan, finishActs, nextCode, packageActs, pullActs, readPlan, tasteActs, type TypedUnits } from './plan';

const units: TypedUnits = { gravity: '', temperature: 'C', pressure: 'bar', withUnit };

describe('a turn as acts', () => {
  test('nothing typed books nothing', () => {
    const plan = emptyPlan();
    expect(tasteActs(plan, '#1', units, 'Ines')).toEqual([]);
    expect(pullActs(plan, '#1', 10, units)).toEqual([]);
    expect(finishActs(plan, '', units)).toEqual([]);
    expect(packageActs(plan, 'AMB-4', units)).toEqual([]);
  });
  test('a reading and a tasting of one sample cost it once', () => {
    const plan = { ...emptyPlan(), gravity: '1.005', ph: '3.41', tasting: 'sour 6, lemon', sample: '120' };
    const [reading, tasting] = tasteActs(plan, '#1', units, 'Ines');
    expect(reading).toEqual({ act: 'reading', subject: '#1', gravity: '1.005', ph: '3.41', sample: '120 mL' });
    expect(tasting).toEqual({ act: 'tasting', subject: '#1', scores: ['sour=6'], words: 'lemon', taster: 'Ines' });
  });
  test('the pull comes before the refill, and both keep to what was dragged', () => {
    const plan = { ...emptyPlan(), pull_litres: 18.3150981, into: '#4', refill_litres: 18.5, original_gravity: '1.048' };
    const [pull, refill] = pullActs(plan, '#1', 10, units);
    expect(pull).toEqual({ act: 'move', reason: 'pull', from: '#1', to: [{ vessel: '#4', volume: '18.32 L' }] });
    expect(refill).toMatchObject({ act: 'lot', reason: 'refill', vessel: '#1', volume: '18.5 L', name: 'Refill of turn 10', original_gravity: '1.048' });
  });
  test('a stage is refilled from the one before it', () => {
    const plan = { ...emptyPlan(), pull_litres: 8, into: '#4', refill_litres: 8, refill_from: '#2' };
    expect(pullActs(plan, '#1', 3, units)[1]).toEqual({ act: 'move', reason: 'refill', from: '#2', to: [{ vessel: '#1', volume: '8 L' }] });
  });
  test('a pull that has nowhere to go is not refilled either', () => {
    expect(pullActs({ ...emptyPlan(), pull_litres: 8, refill_litres: 8 }, '#1', 3, units)).toEqual([]);
  });
  test('fruit goes onto the portion, or by itself where it ferments first', () => {
    const plan = { ...emptyPlan(), into: '#4', finish: 'fruit' as const, fruit_mass: '4' };
    expect(finishActs(plan, 'plum', units)).toEqual([{ act: 'add', vessel: '#4', kind: 'fruit', item: 'plum', amount: '4 kg' }]);
    expect(finishActs({ ...plan, fruit_way: 'pre_fermented' }, 'plum', units)).toEqual([]);
    expect(finishActs({ ...plan, fruit_way: 'pre_fermented', fruit_vessel: '#7' }, 'plum', units)[0]).toMatchObject({ vessel: '#7' });
  });
  test('a run and its label carry the same code', () => {
    const plan = { ...emptyPlan(), into: '#4', container: 'bottle_sparkling_750', limit: '8', store: '22' };
    const [run, label] = packageActs(plan, 'AMB-4', units);
    expect(run).toMatchObject({ act: 'package', from: '#4', run: 'AMB-4', count: 'all', limit: '8 bar', store: '22 C' });
    expect(label).toEqual({ act: 'label', run: 'AMB-4' });
  });
});

test('the next code goes on from the runs there are', () => {
  expect(nextCode('The Amber', ['AMB-1', 'AMB-2-PLUM', 'AMB-3', 'ST-9'])).toBe('AMB-4');
  expect(nextCode('Stair 1', [])).toBe('STA-1');
});

test('a plan that was kept comes back, and rubbish does not', () => {
  const plan = { ...emptyPlan(), pull_litres: 12, fruit: 'plum_fresh', bag: false };
  expect(readPlan(JSON.stringify(plan))).toEqual(plan);
  expect(readPlan('{"pull_litres":"many","bag":3}')).toEqual(emptyPlan());
  expect(readPlan('not json')).toEqual(emptyPlan());
});
