// `npm run simulate-clocks`: reads made-up files whose clocks go wrong in known ways, prints what became of their rates,
// and ends with 1 when a promise is broken.
import { simulateClocks } from './clocks.ts';

const { counts, markdown, broken } = await simulateClocks(2000, 20240);
process.stdout.write(`${markdown}\n`);
if (process.argv.includes('--list')) for (const { silent } of counts) process.stdout.write(silent.join('\n') + '\n');
for (const sentence of broken) process.stderr.write(`BROKEN ${sentence}\n`);
if (broken.length > 0) process.exitCode = 1;
