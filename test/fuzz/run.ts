// Mutated inputs of all formats, cells and notebooks: npm run fuzz -- --count 100000 --seed 2
import { mkdirSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { fuzz } from './fuzz.ts';

const { values } = parseArgs({
  options: { count: { type: 'string' }, seed: { type: 'string' }, from: { type: 'string' } },
});
const [count, seed, from] = [Number(values.count ?? 20_000), Number(values.seed ?? 1), Number(values.from ?? 0)];
const folder = 'out/fuzz';
let fallen = 0;
/** After so many it is told how far a long run has come. */
const often = 20_000;
for (let at = from; at < from + count; at += 1000) {
  for (const { index, kind, bytes, reason } of await fuzz(seed, at, Math.min(1000, from + count - at))) {
    fallen++;
    mkdirSync(folder, { recursive: true });
    writeFileSync(`${folder}/${kind}-${seed}-${index}`, bytes);
    console.log(`${kind} ${index} of seed ${seed}, kept in ${folder}: ${reason.split('\n').slice(0, 4).join('\n  ')}`);
  }
  const done = Math.min(at + 1000, from + count) - from;
  if (done % often === 0 && done < count)
    console.log(`${done} so far, ${fallen} fell, ${Math.round(process.cpuUsage().user / 1e6)} s of processor time`);
}
console.log(`${count} inputs, ${fallen} fell`);
process.exitCode = fallen === 0 ? 0 : 1;
