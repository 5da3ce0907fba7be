// The models of few_bench given to HiGHS (npm `highs`, of tests/api): node bench/few_rival.mjs FEW_BENCH STOCKS SECONDS [SEEDS]
import { execFileSync } from 'node:child_process';
import { createRequire } from 'node:module';

const load = createRequire(new URL('../tests/api/package.json', import.meta.url))('highs');
const [bench, stocks, seconds, seeds = '5'] = process.argv.slice(2);
const taken = [];
for (let seed = 1; seed <= Number(seeds); ++seed) {
  const text = execFileSync(bench, ['lp', stocks, String(seed)], { encoding: 'utf8', maxBuffer: 1 << 28 });
  const highs = await load();
  const begin = performance.now();
  const answer = highs.solve(text, { time_limit: Number(seconds), mip_rel_gap: 0, mip_abs_gap: 1e-9 });
  taken.push((performance.now() - begin) / 1000);
  console.log(`${stocks} stocks, seed ${seed}: HiGHS ${answer.ObjectiveValue} (${answer.Status}) in ${taken.at(-1).toFixed(3)} s`);
}
console.log(`median: HiGHS ${taken.sort((a, b) => a - b)[Math.floor(taken.length / 2)].toFixed(3)} s`);
