import { strict as assert } from 'node:assert';
import { presentFindings } from '../../../src/charts/kinds/findings.ts';
import type { FindingsValue } from '../../../src/values/findings.ts';
import { madeRun } from '../madeUp.ts';

const run = madeRun('r', 1);

/** Findings of runs named `r0`, `r1`, …, each with a figure of its own. */
const findings = (figures: readonly (number | undefined)[]): FindingsValue => ({
  kind: 'findings',
  rows: figures.map((value, k) => ({
    run: { ...run, label: `r${k}` },
    finding: {
      code: 'short',
      severity: 'warning',
      message: `The recording gives ${value} segments.`,
      facts: {},
      threshold: 16,
      ...(value === undefined ? {} : { value }),
    },
  })),
});

const rowsOf = (value: FindingsValue): readonly (readonly string[])[] =>
  presentFindings(value, undefined, undefined).flatMap((part) => (part.type === 'table' ? part.rows : []));

describe('a table of findings', () => {
  it('says once what is said of several runs in the same words', () => {
    const rows = rowsOf(findings([3, 4, 3]));
    assert.deepEqual(
      rows.map(([, what, runs]) => [what, runs]),
      [
        ['The recording gives 3 segments.', 'r0, r2'],
        ['The recording gives 4 segments.', 'r1'],
      ],
    );
  });

  it('tells the farthest of many that differ in their figures alone, and of how many more it is said', () => {
    const few = Array.from({ length: 20 }, (_, k) => 15 - k / 2);
    assert.equal(rowsOf(findings(few)).length, 20);
    const rows = rowsOf(findings([...few, 2, 2]));
    assert.equal(rows.length, 1);
    assert.equal(
      rows[0][1],
      'The recording gives 2 segments. That is the farthest, of r20 and r21; 20 more runs are less far off.',
    );
    assert.match(rows[0][2], /^r20, r21, r0, r1,/);
  });

  it('tells each of them where a figure is not known', () => {
    assert.equal(rowsOf(findings([...Array.from({ length: 20 }, (_, k) => k), undefined])).length, 21);
  });
});
