// What the page works out, from answers the program gave: tests/api/contract.test.mjs keeps them and fails when they are stale.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { bottleEnds } from '../drawing/bottles';
import { flowLayout, flowOfTrace, flowWithHere } from '../drawing/flow';
import { barAt, barAtStore, coldEnough, pressurePoints, pressureTop } from '../drawing/pressure';
import { riverLayout } from '../drawing/river';
import { shapeOf } from '../drawing/shape';
import { partsOf, strataLayout } from '../drawing/strata';
import { held, offers, room } from '../sitting/vessels';
import { termFigure } from '../units/terms';
import type { FlowAnswer, GasAnswer, Term, TraceAnswer } from './answers';
import { Client, Fault } from './client';
import type { CellarAnswer, HoldingAnswer, River, SittingAnswer } from './types';

const k_folder = fileURLToPath(new URL('../../../tests/api/contract', import.meta.url));

interface Kept {
  method: string;
  path: string;
  status: number;
  answer: unknown;
}
const kept = (name: string) => JSON.parse(readFileSync(join(k_folder, `${name}.json`), 'utf8')) as Kept;
const answered = <T>(name: string) => kept(name).answer as T;
const names = readdirSync(k_folder).map((file) => file.replace(/\.json$/, ''));
const named = (prefix: string) => names.filter((name) => name.startsWith(prefix));
const clientOf = (one: Kept) => new Client(() => Promise.resolve(new Response(JSON.stringify(one.answer), { status: one.status })));

const cellar = answered<CellarAnswer>('cellar');

function everyOf(value: unknown, is: (one: Record<string, unknown>) => boolean): Record<string, unknown>[] {
  if (value === null || typeof value !== 'object') return [];
  const here = !Array.isArray(value) && is(value as Record<string, unknown>) ? [value as Record<string, unknown>] : [];
  return [...here, ...Object.values(value).flatMap((one) => everyOf(one, is))];
}

describe('answers of the program', () => {
  test.each(names)('%s is read, or refused with its fault', async (name) => {
    const one = kept(name);
    const asked = clientOf(one).get('/any', 'own');
    if (one.status < 400) return void expect(await asked).toEqual(one.answer);
    const fault = await asked.then(
      () => null,
      (why: unknown) => why,
    );
    expect(fault).toBeInstanceOf(Fault);
    const { body, status } = fault as Fault;
    expect(status).toBe(one.status);
    expect(body.what.length).toBeGreaterThan(10);
  });
  test('a stale sitting comes with what it would do now', async () => {
    const fault = (await clientOf(kept('stale')).get('/any', 'own').catch((why: unknown) => why)) as Fault;
    expect(fault.kind).toBe('stale');
    expect(fault.sitting?.touched.map((one) => one.name)).toContain('The Amber');
  });
  test('every amount is in litres: drawings take its figure as it is', () => {
    const amounts = names.flatMap((name) => everyOf(kept(name).answer, (one) => 'value' in one && 'unit' in one && typeof one.value === 'string' && !('quantity' in one)));
    const volumes = amounts.filter((one) => Object.keys(one).length === 2);
    expect(volumes.length).toBeGreaterThan(1000);
    expect(new Set(volumes.map((one) => one.unit))).toEqual(new Set(['L']));
  });
  test('no row of a sum that is something reads as nothing', () => {
    const rows = names.flatMap((name) => everyOf(kept(name).answer, (one) => 'how' in one && 'source' in one && typeof one.value === 'number'));
    expect(rows.length).toBeGreaterThan(50);
    for (const row of rows) if (row.value !== 0) expect(Number(termFigure(row as unknown as Term).text), String(row.name)).not.toBe(0);
  });
});

describe('drawings of the program’s answers', () => {
  test.each(cellar.vessels.map((one) => [one.name, one] as const))('%s: layers are all that is there, none outside the vessel', (_, vessel) => {
    const parts = partsOf(vessel.age);
    if (held(vessel) === 0) return void expect(parts).toEqual([]);
    expect(parts.reduce((sum, part) => sum + part.share, 0)).toBeCloseTo(1, 6);
    const shape = shapeOf(vessel.role, vessel.material, Number(vessel.capacity.value));
    const strata = strataLayout(shape, 10, Math.min(1, held(vessel) / Number(vessel.capacity.value)), parts);
    expect(strata.reduce((sum, one) => sum + one.share, 0)).toBeCloseTo(1, 6);
    expect(strata.at(-1)?.y1).toBeLessThanOrEqual(shape.height * 10 + 1e-6);
    strata.forEach((one, i) => expect(one.y0).toBeCloseTo(strata[i - 1]?.y1 ?? 0, 6));
  });
  test.each(named('river_'))('%s: the bands together are as high as the surface, and end at what is held', (name) => {
    const river = answered<River>(name);
    const layout = riverLayout(river);
    for (const { t, litres } of layout.surface) {
      const tops = layout.bands.flatMap((band) => band.points.filter((point) => point.t === t).map((point) => point.high));
      if (litres > 0) expect(Math.max(...tops)).toBeGreaterThanOrEqual(litres - 1e-9);
    }
    const holding = answered<HoldingAnswer>(name.replace('river', 'holding'));
    if (holding.vessel) expect(layout.surface.at(-1)?.litres).toBeCloseTo(held(holding.vessel), 9);
    expect(layout.from).toBeLessThan(layout.to);
  });
  test.each(named('flow_'))('%s: boxes by one scale, inside the frame', (name) => {
    const { nodes, links } = flowWithHere(answered<FlowAnswer>(name));
    const { boxes } = flowLayout(nodes, links, { width: 600, height: 400, left: 100, right: 100, gap: 4, thickness: 8, most: 12 });
    expect(boxes.length).toBeGreaterThan(1);
    const scale = (boxes[0]!.y1 - boxes[0]!.y0) / boxes[0]!.volume;
    for (const box of boxes) {
      expect((box.y1 - box.y0) / box.volume).toBeCloseTo(scale, 9);
      expect(box.y0).toBeGreaterThanOrEqual(-1e-9);
      expect(box.y1).toBeLessThanOrEqual(400 + 1e-9);
    }
  });
  test('a trace of a run has a box for every source', () => {
    const trace = answered<TraceAnswer>('trace_run');
    const { nodes, links } = flowOfTrace(trace);
    expect(nodes).toHaveLength(trace.sources.length + 1);
    expect(links.reduce((sum, one) => sum + Number(one.volume.value), 0)).toBeGreaterThan(0);
  });
  test.each(named('gas_'))('%s: the curve rises and goes through the pressure that was told', (name) => {
    const gas = answered<GasAnswer>(name);
    const points = pressurePoints(gas);
    points.forEach((point, i) => i > 0 && expect(point.bar).toBeGreaterThan(points[i - 1]!.bar));
    // Read along a straight line between points a few degrees apart.
    const told = barAtStore(gas);
    expect(Math.abs((barAt(points, gas.store_c) ?? NaN) - told)).toBeLessThan(0.05);
    expect(pressureTop(gas)).toBeGreaterThan(told);
    const cold = coldEnough(gas);
    if (cold.kind === 'up_to') expect(cold.celsius < gas.store_c).toBe(told > gas.allowed_bar);
    if (cold.kind === 'always') expect(told).toBeLessThanOrEqual(gas.allowed_bar);
  });
  test('a run has as many bottle ends as bottles, and those that are left are here', () => {
    for (const run of cellar.runs) {
      const { ends } = bottleEnds(run.count, run.left);
      expect(ends.reduce((sum, end) => sum + end.of, 0)).toBe(run.count);
      expect(ends.reduce((sum, end) => sum + end.here, 0)).toBe(run.left);
    }
  });
});

describe('forms over the program’s answers', () => {
  test('a pull is offered vessels that have the room first', () => {
    const amber = cellar.vessels.find((one) => one.name === 'The Amber')!;
    const offered = offers(cellar.vessels, 2, amber);
    expect(offered).toHaveLength(cellar.vessels.length - 1);
    const first_too_small = offered.findIndex((one) => !one.fits);
    if (first_too_small >= 0) expect(offered.slice(first_too_small).every((one) => !one.fits)).toBe(true);
    for (const one of offered) if (one.fits) expect(room(one.vessel)).toBeGreaterThanOrEqual(2 - 1e-9);
  });
  test('what a preview touched is what its booking is held to', () => {
    const preview = answered<SittingAnswer>('preview');
    const booked = answered<SittingAnswer>('booked');
    expect(booked.changes).toEqual(preview.changes);
    expect(booked.book.sequence).toBe(preview.book.sequence + booked.entries.length);
    for (const one of preview.touched) expect(cellar.vessels.map((vessel) => vessel.number)).toContain(one.number);
  });
});
