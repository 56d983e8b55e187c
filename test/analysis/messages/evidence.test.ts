import { strict as assert } from 'node:assert';
import { noteWarning, tell } from '../../../src/analysis/messages/evidence.ts';
import { refuse, tell as tellOfRuns } from '../../../src/analysis/messages/recordings.ts';
import type { Note } from '../../../src/statistics/comparison.ts';

/** Labels that would be mangled if a sentence were made by replacing parts of another. */
const names = { a: 'cost $& of A', b: 'order of B, -3' };
const bands = [
  { from: 10, to: 50 },
  { from: 7.1, to: 8.9, label: '8' },
];
const told = (note: Note): string => noteWarning(note, names, bands)?.message ?? '';

describe('a note of a comparison', () => {
  it('names the sides as they are written', () => {
    assert.equal(
      told({ code: 'few-runs', runsA: 2, runsB: 4, needed: 3 }),
      'There are 2 runs of cost $& of A and 4 of order of B, -3; at least 3 of each are needed for an interval.',
    );
    assert.match(told({ code: 'few-runs', runsA: 1, runsB: 2, needed: 3 }), /^There is 1 run of .* and 2 of /);
    assert.equal(
      told({ code: 'order-leans', varianceInflation: 1.88 }),
      'The runs of cost $& of A and order of B, -3 are not well mixed: the variance of the change is 1.88 times that of an interleaved order, as "order" proposes one.',
    );
    assert.equal(
      told({
        code: 'method-not-possible',
        method: 'paired',
        instead: 'trend',
        obstacle: 'unequal-counts',
        runsA: 3,
        runsB: 4,
      }),
      'Taking a steady drift out was used instead of paired: pairs need as many runs of cost $& of A as of order of B, -3, and there are 3 and 4.',
    );
  });

  it('says where an order comes from only where it was missing', () => {
    assert.match(
      told({
        code: 'method-not-possible',
        method: 'trend',
        instead: 'welch',
        obstacle: 'no-order',
        runsA: 3,
        runsB: 3,
      }),
      /needs the order of the runs\. Give the order in a run sheet \(column order\), and load with it\.$/,
    );
    assert.match(
      told({
        code: 'method-not-possible',
        method: 'trend',
        instead: 'welch',
        obstacle: 'same-place',
        runsA: 3,
        runsB: 3,
      }),
      /two runs have the same place in the order\.$/,
    );
  });

  it('begins with the band that it is about', () => {
    const warning = noteWarning({ code: 'no-scatter', band: 1 }, names, bands);
    assert.equal(warning?.code, 'compare.no-scatter');
    assert.match(warning?.message ?? '', /^The band of 8 Hz: The runs do not differ at all/);
  });
});

describe('the messages of a comparison', () => {
  it('name the sides as they are written', () => {
    const { failure } = refuse('unit.mixed', { ...names, unitA: 'g', unitB: 'm/s' }, 'b');
    assert.equal(failure.message, 'cost $& of A is in g and order of B, -3 in m/s: load both in one unit.');
    assert.equal(failure.at, 'b');
    assert.match(
      tell('compare.pressure', {
        ...names,
        column: 'tyre pressure',
        unit: 'bar',
        meanA: 5,
        meanB: 5.2,
        changePercent: 4,
      }).message,
      /^By the run sheet the mean tyre pressure was 5 bar with cost \$& of A and 5\.2 bar with order of B, -3 \(\+4\.0 %\)/,
    );
  });

  it('say why a run stays out, whatever the run is called', () => {
    assert.equal(
      tellOfRuns('runs.excluded', { stillOut: 'gel', obstacle: 'gel ends at 4 s.' }).message,
      'Still left out: gel. gel ends at 4 s.',
    );
  });
});
