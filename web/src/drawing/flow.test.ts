import { describe, expect, test } from 'vitest';
import type { FlowLink, FlowNode } from '../api/answers';
import { columnsOf, flowLayout, flowOfTrace, flowWithHere, inLines, type FlowFrame } from './flow';

const frame: FlowFrame = { width: 600, height: 400, left: 100, right: 100, gap: 12, thickness: 8, most: 6 };

function node(id: string, what: string, years: number | null = 1): FlowNode {
  return { id, what, name: id, number: null, mean_age_years: years, flagged: false, why: '' };
}
function link(from: string, to: string, litres: number): FlowLink {
  return { from, to, volume: { value: String(litres), unit: 'L' } };
}

// An invented turn: three lots in a solera, a third of it into two runs.
const nodes = [node('old', 'lot', 5), node('mid', 'lot', 3), node('young', 'lot', 1), node('amber', 'vessel', 2.4), node('A-1', 'run'), node('A-2', 'run')];
const links = [link('old', 'amber', 10), link('mid', 'amber', 14), link('young', 'amber', 30), link('amber', 'A-1', 12), link('amber', 'A-2', 6)];

describe('the flow from lots to bottles', () => {
  test('a box is as high as what flows through it, by one scale for all', () => {
    const flow = flowLayout(nodes, links, frame);
    const scales = flow.boxes.map((b) => (b.y1 - b.y0) / b.volume);
    for (const s of scales) expect(s).toBeCloseTo(scales[0] ?? 0, 9);
    expect(flow.boxes.find((b) => b.id === 'amber')?.volume).toBe(54);
  });
  test('nothing leaves the frame and no two boxes of a column lie over each other', () => {
    const { boxes } = flowLayout(nodes, links, frame);
    for (const b of boxes) {
      expect(b.y0).toBeGreaterThanOrEqual(-1e-9);
      expect(b.y1).toBeLessThanOrEqual(frame.height + 1e-9);
    }
    for (const a of boxes)
      for (const b of boxes)
        if (a !== b && a.column === b.column && a.y0 <= b.y0) expect(b.y0 - a.y1).toBeGreaterThanOrEqual(frame.gap - 1e-9);
  });
  test('lots stand first, runs last, youngest on top as in a vessel', () => {
    const { boxes, columns } = flowLayout(nodes, links, frame);
    expect(columns).toBe(3);
    expect(boxes.filter((b) => b.column === 0).sort((a, b) => a.y0 - b.y0).map((b) => b.id)).toEqual(['young', 'mid', 'old']);
    expect(boxes.filter((b) => b.what === 'run').map((b) => b.column)).toEqual([2, 2]);
  });
  test('many small lots become one that says how many, and no litre is lost', () => {
    const many = Array.from({ length: 20 }, (_, i) => node(`lot${i}`, 'lot', i));
    const flow = flowLayout([...many, node('v', 'vessel')], many.map((n, i) => link(n.id, 'v', 1 + i)), frame);
    const lots = flow.boxes.filter((b) => b.what === 'lot');
    expect(lots).toHaveLength(6);
    expect(lots.find((b) => b.of > 1)?.name).toBe('15 smaller lots');
    expect(lots.reduce((sum, b) => sum + b.volume, 0)).toBeCloseTo(210, 9);
    expect(flow.bands.reduce((sum, b) => sum + b.volume, 0)).toBeCloseTo(210, 9);
  });
  test('dregs that go back make a loop, and the layout ends all the same', () => {
    const looped = [...links, link('A-1', 'amber', 0.3)];
    const columns = columnsOf(nodes, looped);
    expect(columns.get('amber')).toBe(1);
    expect(flowLayout(nodes, looped, frame).bands).toHaveLength(6);
  });
  test('a link to something that is not there is passed over', () => {
    expect(flowLayout(nodes, [...links, link('old', 'nowhere', 3)], frame).bands).toHaveLength(5);
  });
  test('what is still in the vessel stands beside what left it, and no litre is lost', () => {
    const amber = { ...node('amber', 'vessel', 2.4), number: 1 };
    const told = { number: 1, here: { value: '36', unit: 'L' as const }, nodes: nodes.map((n) => (n.id === 'amber' ? amber : n)), links };
    const { boxes, bands } = flowLayout(flowWithHere(told).nodes, flowWithHere(told).links, frame);
    expect(boxes.find((b) => b.id === 'here')?.column).toBe(2);
    const sum = (of: 'from' | 'to') => bands.filter((b) => b[of].id === 'amber').reduce((s, b) => s + b.volume, 0);
    expect(sum('from')).toBeCloseTo(sum('to'), 9);
  });
  test('a run that bottles were taken from stands before what left it', () => {
    const columns = columnsOf([...nodes, node('opened', 'out', null)], [...links, link('A-1', 'opened', 2)]);
    expect(columns.get('A-1')).toBe(2);
    expect(columns.get('opened')).toBe(3);
    expect(columns.get('A-2')).toBe(3);
  });
  test('a trace forward is a flow from the one to the many', () => {
    const step = (what: string, name: string, value: string) => ({ what, name, detail: '', share: 0, volume: { value, unit: 'L' }, when: '', certainty: '' });
    const trace = { subject: 'Bitter amber', sources: [step('vessel', 'The Amber', '8'), step('run', 'A-1', '3'), step('gone', 'opened', '1')] };
    const flow = flowOfTrace(trace as never);
    expect(flowLayout(flow.nodes, flow.links, frame).boxes.find((b) => b.id === 'start')?.volume).toBe(12);
    expect(flowOfTrace({ subject: 'x', sources: [] } as never)).toEqual({ nodes: [], links: [] });
  });
  test('an empty flow is empty', () => {
    expect(flowLayout([], [], frame)).toEqual({ boxes: [], bands: [], columns: 1 });
  });
});

test('a long name is broken between words and never inside one', () => {
  expect(inLines('sour cherry, frozen unsweetened', 14)).toEqual(['sour cherry,', 'frozen', 'unsweetened']);
  expect(inLines('AMB-2-PLUM', 6)).toEqual(['AMB-2-PLUM']);
});
