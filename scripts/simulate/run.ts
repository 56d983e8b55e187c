// `npm run simulate`: proves by experiment on made-up rides what the statistics promise, prints the report and keeps
// it as RESULTS.md beside this file; ends with 1 when a promise is broken. Takes some minutes.
import { writeFileSync } from 'node:fs';
import { simulate } from './report.ts';

const size = { seed: 20240, rides: 1500, experiments: 10_000 };
const started = performance.now();
const seconds = (): string => ((performance.now() - started) / 1000).toFixed(0);
const report = simulate({ ...size, progress: (part) => process.stderr.write(`${seconds()} s: ${part}\n`) });

const preface = `# What the statistics hold, by simulation

Made by \`npm run simulate\` (seed ${size.seed}), which fails when a limit of \`scripts/simulate/limits.ts\` is broken; a short
form runs with the tests. ${size.rides} made-up rides of 85 s at 350 Hz over one road: noise through two resonances, a road that is
rough in places, bumps met by every ride, potholes met by chance, a slow modulation of each ride's own. Their levels come
from the tool's own spectrum and bands (10 to 50 Hz, and nine bands from 5 to 100 Hz) and scatter by ${(100 * report.ownScatter).toFixed(1)} % as they are; the
scatter from run to run that each table names comes on top, as a factor on a run's level. An experiment draws its runs
from these rides without putting back.

`;
writeFileSync(new URL('RESULTS.md', import.meta.url), preface + report.markdown);
process.stdout.write(preface + report.markdown);
for (const sentence of report.broken) process.stderr.write(`BROKEN ${sentence}\n`);
if (report.broken.length > 0) process.exitCode = 1;
