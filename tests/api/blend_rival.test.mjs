// The best blend of random cellars beside HiGHS (npm "highs", an independent solver), which is given a programme written
// apart from src/engine/blend: the same cost, and contradictory limits where it finds them so.
import assert from 'node:assert/strict';
import { createRequire } from 'node:module';
import { after } from 'node:test';
import { before, demoBook, makeFolder, Server, test } from './server.mjs';

const highsOf = createRequire(import.meta.url)('highs');
const k_problems = 300;
const k_figures = [['ta', 0.5, 2, 9], ['alcohol', 0.5, 4, 9], ['colour', 5, 6, 60], ['sour', 1, 0, 9]];

// mulberry32: the same problems every run.
function dice(seed) {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = Math.imul(a ^ (a >>> 15), a | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
const rounded = (x, places = 2) => Number(x.toFixed(places));

function anyProblem(seed) {
  const u = dice(seed);
  const any = (low, high) => rounded(low + u() * (high - low));
  const whole = (low, high) => low + Math.floor(u() * (high - low + 1));
  const stocks = Array.from({ length: whole(2, 9) }, (_, i) => ({
    name: `S${i}`, litres: any(2, 40), keep: u() < 0.2 ? any(0, 5) : 0, cost: any(1, 6),
    figures: Object.fromEntries(k_figures.map(([name, , low, high]) => [name, any(low, high)])),
  }));
  const problem = { stocks, volume: any(2, 30), wishes: [], aim: 'nearest', most_stocks: u() < 0.5 ? whole(1, 4) : 0, least_draw: u() < 0.3 ? any(0.5, 4) : 0, use: [], whole: [] };
  for (const [name, , low, high] of k_figures) {
    if (u() < 0.3) continue;
    const from = any(low, high);
    const to = rounded(from + u() * (high - low) * 0.2);
    const kind = u();
    problem.wishes.push({ name, must: u() < 0.25, weight: whole(1, 3), low: kind < 0.2 ? null : from, high: kind > 0.8 ? null : to });
  }
  if (problem.wishes.length === 0) problem.wishes.push({ name: 'ta', must: false, weight: 1, low: 5, high: 6 });
  const aim = u();
  if (aim < 0.15) problem.aim = 'cheapest';
  else if (aim < 0.3) problem.aim = 'most';
  if (u() < 0.2) problem.use.push({ name: stocks[0].name, litres: any(0.5, 3) });
  if (u() < 0.2) problem.whole.push(stocks[stocks.length - 1].name);
  return problem;
}

const told = (w) => `${w.name} ${w.low === null ? `at most ${w.high}` : w.high === null ? `at least ${w.low}` : `${w.low} to ${w.high}`} weight ${w.weight}`;

function asked(p) {
  return {
    stocks: p.stocks.map((s) => `${s.name}, ${s.litres} L, ${Object.entries(s.figures).map(([n, v]) => `${n} ${v}`).join(', ')}, cost ${s.cost}`),
    ...(p.aim === 'most' ? {} : { volume: `${p.volume} L` }),
    aim: p.aim,
    wants: p.wishes.filter((w) => !w.must).map(told),
    musts: p.wishes.filter((w) => w.must).map(told),
    ...(p.most_stocks ? { most_stocks: String(p.most_stocks) } : {}),
    ...(p.least_draw ? { least_draw: `${p.least_draw} L` } : {}),
    keep: p.stocks.filter((s) => s.keep > 0).map((s) => `${s.name} ${s.keep} L`),
    use: p.use.map((one) => `${one.name} ${one.litres} L`),
    whole: p.whole,
    step: '0.00001 L',
    recipes: '1',
  };
}

// CPLEX LP text: litres x, used y, missed by o and m.
function programme(p) {
  const there = (s) => Math.max(0, rounded(s.litres - s.keep, 6));
  const cost = [];
  const rows = [];
  const sum = (terms) => terms.map(([k, v]) => `${k < 0 ? '-' : '+'} ${Math.abs(k)} ${v}`).join(' ');
  const x = p.stocks.map((_, i) => `x${i}`);
  if (p.aim !== 'most') rows.push(`${sum(x.map((v) => [1, v]))} = ${p.volume}`);
  p.stocks.forEach((s, i) => {
    rows.push(`${x[i]} - ${there(s)} y${i} <= 0`);
    if (p.least_draw) rows.push(`${x[i]} - ${p.least_draw} y${i} >= 0`);
    if (p.whole.includes(s.name)) rows.push(`${x[i]} - ${there(s)} y${i} = 0`);
    for (const one of p.use) if (one.name === s.name) rows.push(`${x[i]} >= ${one.litres}`);
  });
  if (p.most_stocks) rows.push(`${sum(x.map((_, i) => [1, `y${i}`]))} <= ${p.most_stocks}`);
  p.wishes.forEach((w, n) => {
    const unit = k_figures.find(([name]) => name === w.name)[1];
    const soft = !w.must && p.aim === 'nearest';
    for (const [side, limit, sign] of [['o', w.high, 1], ['m', w.low, -1]]) {
      if (limit === null) continue;
      const terms = p.stocks.map((s, i) => [rounded(sign * (s.figures[w.name] - limit), 6), x[i]]);
      if (soft) {
        terms.push([-unit * p.volume, `${side}${n}`]);
        cost.push([w.weight, `${side}${n}`]);
      }
      rows.push(`${sum(terms)} <= 0`);
    }
  });
  if (p.aim === 'cheapest') p.stocks.forEach((s, i) => cost.push([s.cost, x[i]]));
  if (p.aim === 'most') x.forEach((v) => cost.push([-1, v]));
  if (cost.length === 0) cost.push([0, x[0]]);
  return `Minimize\n obj: ${sum(cost)}\nSubject To\n${rows.map((r, i) => ` r${i}: ${r}`).join('\n')}\nBinary\n ${x.map((_, i) => `y${i}`).join(' ')}\nEnd\n`;
}

let server;
before(async () => {
  server = await Server.start(demoBook(makeFolder()));
});
after(async () => {
  await server.stop();
});

test(`${k_problems} random blends cost what another solver finds they cost`, async () => {
  const highs = await highsOf();
  const seen = { equal: 0, infeasible: 0 };
  for (let seed = 1; seed <= k_problems; ++seed) {
    const problem = anyProblem(seed);
    const rival = highs.solve(programme(problem));
    const answer = await server.request('POST', '/api/v1/calc/blending', { body: asked(problem) });
    const where = `problem ${seed}: ${answer.raw.toString().slice(0, 300)}\n${programme(problem)}`;
    // None at all is as good as contradictory.
    if (rival.Status === 'Infeasible' || (problem.aim === 'most' && rival.ObjectiveValue > -1e-6)) {
      assert.equal(answer.status, 409, where);
      ++seen.infeasible;
      continue;
    }
    assert.equal(rival.Status, 'Optimal', where);
    assert.equal(answer.status, 200, where);
    assert.equal(answer.json.proven, true, where);
    const scale = Math.max(1, Math.abs(rival.ObjectiveValue));
    // Middle-seeking is worth a thousandth of a step for each step off; amounts are rounded to a hundredth of a millilitre.
    assert.ok(Math.abs(answer.json.cost - rival.ObjectiveValue) <= 0.02 * scale, `${answer.json.cost} beside ${rival.ObjectiveValue}: ${where}`);
    ++seen.equal;
  }
  assert.ok(seen.equal >= 100 && seen.infeasible >= 30, JSON.stringify(seen));
  console.log(`figure: blends as HiGHS has them: ${seen.equal} equal, ${seen.infeasible} contradictory in both`);
});
