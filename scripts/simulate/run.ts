// `npm run simulate`: shows by experiment what the statistics promise, prints the report and keeps it as RESULTS.md
// beside this file; what is outside the limits is named in it. `npm run simulate -- --experiments 10000 --seed 7` sets the
// size; `--only written` makes one section anew, of the size that the file tells.
import { readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { simulate } from './report.ts';
import { errorOfPercentage } from './throughVerbs.ts';

const { values } = parseArgs({
  options: {
    experiments: { type: 'string', default: '3000' },
    rides: { type: 'string', default: '200' },
    seed: { type: 'string', default: '77310' },
    only: { type: 'string' },
  },
});
const size = { seed: Number(values.seed), rides: Number(values.rides), experiments: Number(values.experiments) };
const started = performance.now();
const seconds = (): string => ((performance.now() - started) / 1000).toFixed(0);
const sections = await simulate({
  ...size,
  only: values.only,
  progress: (part) => process.stderr.write(`${seconds()} s: ${part}\n`),
});

const preface = `# What the statistics hold, by simulation

Made by \`npm run simulate\` (seed ${size.seed}, ${size.experiments} experiments a line, fewer where many bands or bins are drawn; the error
of a percentage near 95 is ${errorOfPercentage(size.experiments)} points), through the same comparison and judgement that notebooks use. Levels are drawn on the
logarithmic scale, with the normal distribution unless said, in an interleaved order. A short form runs with the tests. The
limits that are named are those of \`scripts/simulate/limits.ts\`.`;
const file = new URL('RESULTS.md', import.meta.url);
const parts = values.only === undefined ? [preface, ...sections] : replaced(readFileSync(file, 'utf8'), sections[0]);
writeFileSync(file, parts.join('\n\n') + '\n');
process.stdout.write(sections.join('\n\n') + '\n');

/** The parts of the report with the section of the same title made anew, or put at its end. */
function replaced(report: string, section: string): string[] {
  const [head] = section.split('\n');
  const known = report.trimEnd().split(/\n\n(?=## )/);
  return known.some((one) => one.startsWith(`${head}\n`))
    ? known.map((one) => (one.startsWith(`${head}\n`) ? section : one))
    : [...known, section];
}
