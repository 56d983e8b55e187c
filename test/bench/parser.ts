/**
 * The hand-written parser against one made with chevrotain of the same language's core: time for a cell, and bytes
 * in the bundle, as ratios in one run. Run with `npx tsx test/bench/parser.ts`.
 */
import { build } from 'esbuild';
import { gzipSync } from 'node:zlib';
import { parseCell } from '../../src/language/parser.ts';
import { vocabularyOf } from '../../src/language/vocabulary.ts';
import { catalogue } from '../language/catalogue.ts';
import { validCells } from '../language/valid.ts';
import { parseWithChevrotain } from './chevrotain.ts';

const cells = validCells.filter((cell) => parseWithChevrotain(cell) === 0);
const vocabulary = vocabularyOf(catalogue);

/** Microseconds for one cell: the least of several rounds. */
function time(parse: (cell: string) => unknown): number {
  let least = Infinity;
  for (let round = 0; round < 15; round++) {
    const start = performance.now();
    for (let i = 0; i < 20; i++) cells.forEach(parse);
    least = Math.min(least, performance.now() - start);
  }
  return (least * 1000) / (20 * cells.length);
}

async function bytes(contents: string): Promise<{ plain: number; zipped: number }> {
  const stdin = { contents, resolveDir: import.meta.dirname, loader: 'ts' as const };
  const { outputFiles } = await build({
    stdin,
    bundle: true,
    minify: true,
    write: false,
    format: 'esm',
    platform: 'node',
    logLevel: 'error',
  });
  return { plain: outputFiles[0].contents.length, zipped: gzipSync(outputFiles[0].contents).length };
}

const own = time((cell) => parseCell(cell, vocabulary));
const other = time(parseWithChevrotain);
const ownBytes = await bytes(`export { parseCell } from '../../src/language/parser.ts';`);
const otherBytes = await bytes(`export { parseWithChevrotain } from './chevrotain.ts';`);
const kB = (value: number): string => `${(value / 1024).toFixed(1)} kB`;
console.log(`${cells.length} of ${validCells.length} cells that both read`);
console.log(
  `time a cell:   own ${own.toFixed(1)} µs, chevrotain ${other.toFixed(1)} µs, ratio ${(other / own).toFixed(2)}`,
);
console.log(
  `bundle:        own ${kB(ownBytes.plain)}, chevrotain ${kB(otherBytes.plain)}, ratio ${(otherBytes.plain / ownBytes.plain).toFixed(1)}`,
);
console.log(
  `bundle zipped: own ${kB(ownBytes.zipped)}, chevrotain ${kB(otherBytes.zipped)}, ratio ${(otherBytes.zipped / ownBytes.zipped).toFixed(1)}`,
);
