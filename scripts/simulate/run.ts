// `npm run simulate`: shows by experiment what the statistics promise, prints the report and keeps it as RESULTS.md
// beside this file; what is outside the limits is named in it. `npm run simulate -- --experiments 10000 --seed 7` sets the size.
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { simulate } from './report.ts';

const { values } = parseArgs({
  options: {
    experiments: { type: 'string', default: '4000' },
    rides: { type: 'string', default: '600' },
    seed: { type: 'string', default: '77310' },
  },
});
const size = { seed: Number(values.seed), rides: Number(values.rides), experiments: Number(values.experiments) };
const started = performance.now();
const seconds = (): string => ((performance.now() - started) / 1000).toFixed(0);
const report = simulate({ ...size, progress: (part) => process.stderr.write(`${seconds()} s: ${part}\n`) });

const missed = report.broken.map((sentence) => `- ${sentence}\n`).join('');
const preface = `# What the statistics hold, by simulation

Made by \`npm run simulate\` (seed ${size.seed}, ${size.experiments} experiments a line, fewer where many bands or bins are drawn; the error
of a percentage near 95 is ${(100 * Math.sqrt(0.0475 / size.experiments)).toFixed(1)} points), through the same comparison and judgement that notebooks use. Levels are drawn on the
logarithmic scale, with the normal distribution unless said, in an interleaved order. A short form runs with the tests.

${missed === '' ? 'Every figure lies within the limits of `scripts/simulate/limits.ts`.' : `Outside the limits of \`scripts/simulate/limits.ts\`:\n\n${missed.trimEnd()}`}

`;
writeFileSync(new URL('RESULTS.md', import.meta.url), preface + report.markdown);
process.stdout.write(preface + report.markdown);
