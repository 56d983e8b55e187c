import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { diskHost } from '../../src/disk/host.ts';
import { Engine } from '../../src/engine/engine.ts';
import { withoutMarks } from '../../src/notebook/proseNumbers.ts';
import type { RunReport } from '../../src/engine/result.ts';
import type { ComparisonValue } from '../../src/values/comparison.ts';
import type { Value } from '../../src/values/value.ts';
import type { VerdictValue } from '../../src/values/verdict.ts';

export const folder = fileURLToPath(new URL('../../samples/', import.meta.url));
/** As a reader sees it: what its numbers say they are is held against the results elsewhere. */
export const prose = (notebook: string): string => withoutMarks(readFileSync(folder + notebook, 'utf8'));

/** The fenced cells, found without the notebook's own reader. */
export const cellsOf = (text: string): string[] =>
  [...text.matchAll(/^```washboard\n(.*?)^```$/gms)].map((match) => match[1]);

/** Runs cells in the folder of the samples. */
export function runCells(cells: readonly string[]): Promise<RunReport> {
  const engine = new Engine(diskHost(folder, folder));
  const watch = { cancelled: () => false, progress: () => undefined };
  return engine.run({ cells, wanted: 'all' }, watch);
}

export const run = (notebook: string): Promise<RunReport> => runCells(cellsOf(prose(notebook)));

export const errorsOf = (report: RunReport): string[] => report.results.flatMap(({ error }) => error?.message ?? []);

/** A line break in prose is a blank. */
export const says = (text: string, words: string): void =>
  assert.ok(text.replace(/\s+/g, ' ').includes(words), `the prose does not say "${words}"`);

export const size = (value: number | undefined, digits = 1): string => Math.abs(value ?? NaN).toFixed(digits);

/** What the names of a notebook's run are bound to; each fails where there is none of its kind. */
export const valuesOf = (
  report: () => RunReport,
): {
  readonly named: (name: string) => Value;
  readonly comparison: (name: string) => ComparisonValue;
  readonly verdict: (name: string) => VerdictValue;
} => {
  const named = (name: string): Value => {
    const found = report().results.find((result) => result.name === name)?.value;
    assert.ok(found, `${name} has no value`);
    return found;
  };
  return {
    named,
    comparison: (name) => {
      const value = named(name);
      assert.ok(value.kind === 'comparison');
      return value;
    },
    verdict: (name) => {
      const value = named(name);
      assert.ok(value.kind === 'verdict');
      return value;
    },
  };
};
