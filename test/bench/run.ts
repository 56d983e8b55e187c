import { readdirSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { fileURLToPath } from 'node:url';
import { Reference } from './reference.ts';
import type { Row } from './row.ts';

/**
 * Prints the bench's table: `npx tsx test/bench/run.ts [part of a file's name] [what it takes]`. Every `*.bench.ts` beside this
 * file gives its rows; `reading`, `parser` and `language` print tables of their own. Times are medians of processor time; a ratio is ours over the reference's in the same run.
 */
const folder = fileURLToPath(new URL('.', import.meta.url));
const wanted = process.argv[2] ?? '';
const apart = ['language', 'parser', 'reading'];
if (apart.includes(wanted)) {
  // They take what follows their name, as when they are run by themselves.
  process.argv.splice(1, 2, fileURLToPath(new URL(`${wanted}.ts`, import.meta.url)));
  await import(process.argv[1]);
  process.exit();
}
const benches = readdirSync(folder)
  .filter((name) => name.endsWith('.bench.ts'))
  .sort();
if (!benches.some((name) => name.includes(wanted))) {
  const all = [...apart, ...benches.map((name) => name.replace('.bench.ts', ''))].sort();
  console.error(`There is no bench "${wanted}": name one of ${all.join(', ')}.`);
  process.exit(2);
}
const reference = new Reference();
const versions = await reference.versions();
const rows: Row[] = [];
// In order of name, so that the signal's come first. The edit of a trim brings in libraries in CommonJS, and loading those
// without a bundle makes Node's lexer grow a memory of WebAssembly: from then on V8 looks at every typed array whether
// it was detached, which costs plain loops half as much again. The product's bundles have no such.
for (const file of benches.filter((name) => name.includes(wanted))) {
  const bench = (await import(new URL(file, import.meta.url).href)) as {
    rows: (reference: Reference, given: readonly string[]) => Promise<Row[]>;
    /** Whether it is run only when it is named. */
    isForItself?: boolean;
  };
  if (bench.isForItself === true && wanted === '') continue;
  rows.push(...(await bench.rows(reference, process.argv.slice(3))));
}
reference.end();

console.log(
  `${cpus()[0].model.trim()}, ${cpus().length} processors, load ${loadavg()[0].toFixed(1)}; Node ${process.versions.node}; ` +
    Object.entries(versions)
      .map(([name, version]) => `${name} ${version}`)
      .join(', '),
);
console.log();
print(['what', 'ours', 'reference', 'ratio', 'goal', ''], rows.map(cells));

function cells({ what, ours, reference: other, goal, note }: Row): string[] {
  const ratio = other === undefined ? undefined : ours / other.median;
  const judged = ratio ?? ours;
  return [
    what,
    `${ours.toFixed(1)} ms`,
    other === undefined ? '' : `${other.median.toFixed(1)} ms ${other.name}`,
    ratio === undefined ? '' : ratio.toFixed(2),
    goal === undefined ? '' : `<= ${goal}${ratio === undefined ? ' ms' : ''} ${judged <= goal ? 'met' : 'MISSED'}`,
    note ?? '',
  ];
}

function print(head: readonly string[], body: readonly (readonly string[])[]): void {
  const lines = [head, head.map(() => '---'), ...body];
  const widths = head.map((_, c) => Math.max(...lines.map((line) => line[c].length)));
  for (const line of lines)
    console.log(
      `| ${line.map((cell, c) => (cell === '---' ? '-'.repeat(widths[c]) : cell.padEnd(widths[c]))).join(' | ')} |`,
    );
}
