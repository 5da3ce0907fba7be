// Lots, vessels and runs from left to right; the width of a band is the volume that flowed.
//
// Holds: what is drawn in a column is as high as what flows through it; bands leave and arrive in the order of what they join, so
// bands of one node never cross at that node. A node met again further back (dregs that went back into a solera) keeps its first
// column; the band back to it is drawn from right to left.
import type { FlowAnswer, FlowLink, FlowNode, TraceAnswer } from '../api/answers';

export interface FlowBox {
  id: string;
  what: string;
  name: string;
  number: number | null;
  volume: number; // litres
  years: number | null;
  flagged: boolean;
  why: string;
  column: number;
  serial: number; // its place in its column, picks the hatch
  of: number; // more than one: lots too small to be drawn alone
  x: number;
  y0: number;
  y1: number;
}

export interface FlowBand {
  from: FlowBox;
  to: FlowBox;
  volume: number;
  path: string;
}

export interface Flow {
  boxes: FlowBox[];
  bands: FlowBand[];
  columns: number;
}

export interface FlowFrame {
  width: number;
  height: number;
  left: number; // kept free for labels
  right: number;
  gap: number; // between boxes of a column
  thickness: number; // of a box
  most: number; // boxes in a column; the smallest lots beyond are drawn as one
}

interface Link {
  from: string;
  to: string;
  volume: number;
}

export function flowLayout(nodes: FlowNode[], links: FlowLink[], frame: FlowFrame): Flow {
  const known = new Set(nodes.map((n) => n.id));
  let wires: Link[] = links
    .map((l) => ({ from: l.from, to: l.to, volume: Number(l.volume.value) }))
    .filter((l) => known.has(l.from) && known.has(l.to) && l.from !== l.to && l.volume > 0);
  const through = (id: string) => {
    const into = wires.reduce((sum, l) => sum + (l.to === id ? l.volume : 0), 0);
    const out = wires.reduce((sum, l) => sum + (l.from === id ? l.volume : 0), 0);
    return Math.max(into, out);
  };
  const column = columnsOf(nodes, wires);
  let boxes: FlowBox[] = nodes
    .map((n) => ({
      id: n.id,
      what: n.what,
      name: n.name,
      number: n.number,
      volume: through(n.id),
      years: n.mean_age_years,
      flagged: n.flagged,
      why: n.why,
      column: column.get(n.id) ?? 0,
      serial: 0,
      of: 1,
      x: 0,
      y0: 0,
      y1: 0,
    }))
    .filter((b) => b.volume > 0);
  ({ boxes, wires } = withSmallOnesJoined(boxes, wires, frame.most));
  place(boxes, wires, frame);
  return { boxes, bands: bandsOf(boxes, wires, frame.thickness), columns: Math.max(0, ...boxes.map((b) => b.column)) + 1 };
}

// The longest way from a source. A link that would close a loop counts for nothing; runs and what left stand last, unless something came of them.
export function columnsOf(nodes: FlowNode[], links: { from: string; to: string }[]): Map<string, number> {
  const out = new Map<string, string[]>();
  for (const l of links) out.set(l.from, [...(out.get(l.from) ?? []), l.to]);
  const depth = new Map(nodes.map((n) => [n.id, 0]));
  const state = new Map<string, 'open' | 'done'>();
  const order: string[] = [];
  const back = new Set<string>();
  const visit = (id: string) => {
    state.set(id, 'open');
    for (const to of out.get(id) ?? []) {
      if (state.get(to) === 'open') back.add(`${id}>${to}`);
      else if (!state.has(to)) visit(to);
    }
    state.set(id, 'done');
    order.unshift(id);
  };
  const starts = [...nodes].sort((a, b) => Number(b.what === 'lot') - Number(a.what === 'lot'));
  for (const n of starts) if (!state.has(n.id)) visit(n.id);
  for (const id of order) {
    for (const to of out.get(id) ?? []) {
      if (back.has(`${id}>${to}`)) continue;
      depth.set(to, Math.max(depth.get(to) ?? 0, (depth.get(id) ?? 0) + 1));
    }
  }
  const last = Math.max(0, ...depth.values());
  const ends = (n: FlowNode) => (n.what === 'run' || n.what === 'out' || n.what === 'here') && !out.get(n.id)?.some((to) => !back.has(`${n.id}>${to}`));
  for (const n of nodes) if (ends(n)) depth.set(n.id, Math.max(last, 1));
  return depth;
}

function withSmallOnesJoined(boxes: FlowBox[], wires: Link[], most: number): { boxes: FlowBox[]; wires: Link[] } {
  const lots = boxes.filter((b) => b.what === 'lot' && b.column === 0 && !b.flagged).sort((a, b) => a.volume - b.volume);
  const in_first = boxes.filter((b) => b.column === 0).length;
  const too_many = in_first - most;
  if (too_many <= 0 || lots.length < 2) return { boxes, wires };
  const joined = lots.slice(0, Math.min(lots.length, too_many + 1));
  const gone = new Set(joined.map((b) => b.id));
  const volume = joined.reduce((sum, b) => sum + b.volume, 0);
  const aged = joined.filter((b) => b.years !== null);
  const aged_volume = aged.reduce((sum, b) => sum + b.volume, 0);
  const one: FlowBox = {
    id: 'lots-joined',
    what: 'lot',
    name: `${joined.length} smaller lots`,
    number: null,
    volume,
    years: aged_volume > 0 ? aged.reduce((sum, b) => sum + (b.years ?? 0) * b.volume, 0) / aged_volume : null,
    flagged: false,
    why: joined.map((b) => b.name).join(', '),
    column: 0,
    serial: 0,
    of: joined.length,
    x: 0,
    y0: 0,
    y1: 0,
  };
  const into = new Map<string, number>();
  const rest: Link[] = [];
  for (const l of wires) {
    if (gone.has(l.from)) into.set(l.to, (into.get(l.to) ?? 0) + l.volume);
    else rest.push(l);
  }
  for (const [to, litres] of into) rest.push({ from: one.id, to, volume: litres });
  return { boxes: [...boxes.filter((b) => !gone.has(b.id)), one], wires: rest };
}

// Youngest on top, as in a vessel; what has no age goes below.
function byAge(a: FlowBox, b: FlowBox): number {
  return (a.years ?? 1e9) - (b.years ?? 1e9) || a.name.localeCompare(b.name);
}

function place(boxes: FlowBox[], wires: Link[], frame: FlowFrame) {
  const columns = Math.max(0, ...boxes.map((b) => b.column)) + 1;
  const inside = frame.width - frame.left - frame.right - frame.thickness;
  let scale = Infinity;
  const held: FlowBox[][] = [];
  for (let c = 0; c < columns; c++) {
    const here = boxes.filter((b) => b.column === c);
    held.push(here);
    const total = here.reduce((sum, b) => sum + b.volume, 0);
    if (total > 0) scale = Math.min(scale, Math.max(1, frame.height - frame.gap * (here.length - 1)) / total);
  }
  if (!Number.isFinite(scale)) scale = 0;
  held.forEach((here, c) => {
    if (c === 0) here.sort(byAge);
    else {
      // As near as can be to the middle of what flows in.
      const middle = (b: FlowBox) => {
        let sum = 0;
        let weight = 0;
        for (const l of wires) {
          if (l.to !== b.id) continue;
          const from = boxes.find((o) => o.id === l.from);
          if (!from || from.column >= c) continue;
          sum += ((from.y0 + from.y1) / 2) * l.volume;
          weight += l.volume;
        }
        return weight > 0 ? sum / weight : frame.height / 2;
      };
      const wanted = new Map(here.map((b) => [b.id, middle(b)]));
      here.sort((a, b) => (wanted.get(a.id) ?? 0) - (wanted.get(b.id) ?? 0) || kindOrder(a) - kindOrder(b) || byAge(a, b));
    }
    const total = here.reduce((sum, b) => sum + b.volume * scale, 0) + frame.gap * Math.max(0, here.length - 1);
    let y = (frame.height - total) / 2;
    here.forEach((b, i) => {
      b.serial = i;
      b.x = frame.left + (columns > 1 ? (inside * c) / (columns - 1) : inside / 2);
      b.y0 = y;
      b.y1 = y + b.volume * scale;
      y = b.y1 + frame.gap;
    });
  });
}

// Runs above what is still here, and what left the cellar below.
function kindOrder(b: FlowBox): number {
  return { run: 0, vessel: 1, out: 2, here: 3 }[b.what] ?? 3;
}

function bandsOf(boxes: FlowBox[], wires: Link[], thickness: number): FlowBand[] {
  const box = new Map(boxes.map((b) => [b.id, b]));
  const made = wires.flatMap((l) => {
    const from = box.get(l.from);
    const to = box.get(l.to);
    return from && to ? [{ from, to, volume: l.volume, at_from: 0, at_to: 0 }] : [];
  });
  for (const b of boxes) {
    const scale = b.volume > 0 ? (b.y1 - b.y0) / b.volume : 0;
    let y = b.y0;
    for (const m of made.filter((m) => m.from === b).sort((p, q) => p.to.y0 - q.to.y0)) {
      m.at_from = y;
      y += m.volume * scale;
    }
    y = b.y0;
    for (const m of made.filter((m) => m.to === b).sort((p, q) => p.from.y0 - q.from.y0)) {
      m.at_to = y;
      y += m.volume * scale;
    }
  }
  return made.map((m) => {
    const high = m.volume * (m.from.volume > 0 ? (m.from.y1 - m.from.y0) / m.from.volume : 0);
    const x0 = m.from.x + thickness;
    const x1 = m.to.x;
    const bend = Math.max(24, Math.abs(x1 - x0) / 2);
    const n = (v: number) => Math.round(v * 100) / 100;
    const path =
      `M${n(x0)} ${n(m.at_from)}C${n(x0 + bend)} ${n(m.at_from)} ${n(x1 - bend)} ${n(m.at_to)} ${n(x1)} ${n(m.at_to)}` +
      `V${n(m.at_to + high)}C${n(x1 - bend)} ${n(m.at_to + high)} ${n(x0 + bend)} ${n(m.at_from + high)} ${n(x0)} ${n(m.at_from + high)}Z`;
    return { from: m.from, to: m.to, volume: m.volume, path };
  });
}

// A name over lines of at most so many letters, broken between words; one long word stays whole.
export function inLines(name: string, letters: number): string[] {
  const lines: string[] = [];
  for (const word of name.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= letters) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

// A trace forward has no flow of its own: from the one thing asked about to everything it is in, or left by.
export function flowOfTrace(trace: TraceAnswer): { nodes: FlowNode[]; links: FlowLink[] } {
  const whole = trace.sources.reduce((sum, s) => sum + Number(s.volume.value), 0);
  if (whole <= 0) return { nodes: [], links: [] };
  const start: FlowNode = { id: 'start', what: 'lot', name: trace.subject, number: null, mean_age_years: null, flagged: false, why: '' };
  const nodes = trace.sources.map((s, i) => ({
    id: `to${i}`,
    what: s.what === 'gone' ? 'out' : s.what,
    name: s.name,
    number: null,
    mean_age_years: null,
    flagged: false,
    why: s.detail,
  }));
  return { nodes: [start, ...nodes], links: trace.sources.map((s, i) => ({ from: 'start', to: `to${i}`, volume: s.volume })) };
}

// The flow through a holding, with what is still in it as a place of its own.
export function flowWithHere(flow: Pick<FlowAnswer, 'number' | 'here' | 'links'> & { nodes: FlowNode[] }): { nodes: FlowNode[]; links: FlowLink[] } {
  const holding = flow.nodes.find((n) => n.number === flow.number && n.what !== 'lot');
  const here = Number(flow.here.value);
  if (!holding || here <= 0 || !flow.links.some((l) => l.from === holding.id)) return { nodes: flow.nodes, links: flow.links };
  const stays: FlowNode = { ...holding, id: 'here', what: 'here', name: `in ${holding.name} now`, flagged: false, why: '' };
  return { nodes: [...flow.nodes, stays], links: [...flow.links, { from: holding.id, to: stays.id, volume: flow.here }] };
}
