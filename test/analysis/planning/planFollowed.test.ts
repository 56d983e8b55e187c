import { strict as assert } from 'node:assert';
import { planFollowed, planWarnings, sameBand, type Done } from '../../../src/analysis/planning/planFollowed.ts';
import type { PlanValue, Settled } from '../../../src/values/plan.ts';

const low = { from: 4, to: 10 };
const primary = { from: 10, to: 50 };
const high = { from: 50, to: 100 };
const settled: Settled = {
  question: 'Less?',
  metric: 'rms',
  channel: 'z',
  primary,
  bands: [low],
  margin: 0.05,
  confidence: 0.9,
  method: 'paired',
  runs: 3,
  order: 'ABBAAB',
};
const plan = (what: Settled): PlanValue => ({ kind: 'plan', entries: [], hash: 'abc', settled: what });
const asPlanned: Done = {
  metric: 'rms',
  channel: 'z',
  primary,
  bands: [low],
  margin: 0.05,
  confidence: 0.9,
  method: 'paired',
  names: ['foam', 'gel'],
  counts: [[3, 3]],
  order: 'ABBAAB',
  includesExcluded: false,
  within: [],
  adjust: [],
  isAllPairs: false,
};

describe('how a comparison stands to its plan', () => {
  it('is as planned where every point is the same, or was left open', () => {
    const followed = planFollowed('p', plan(settled), asPlanned);
    assert.deepEqual(followed.deviations, []);
    assert.deepEqual(followed.bands, [primary, low]);
    assert.deepEqual(planFollowed('p', plan({ question: 'Less?' }), asPlanned).deviations, []);
    assert.deepEqual(planWarnings(followed, 2), []);
  });

  it('names each point that is otherwise, the planned figure first', () => {
    const cases: [Partial<Done>, string, string][] = [
      [{ metric: 'vdv' }, 'deviation.metric', 'the metric was planned as rms and is vdv'],
      [{ channel: 'x' }, 'deviation.channel', 'the channel was planned as z and is x'],
      [{ confidence: 0.95 }, 'deviation.confidence', 'the confidence was planned as 90.0 % and is 95.0 %'],
      [{ margin: undefined }, 'deviation.margin', 'the margin was planned as 5.0 % and is none'],
      [{ method: 'welch' }, 'deviation.method', 'the method was planned as paired and is welch'],
      [
        { primary: undefined, bands: [low, primary] },
        'deviation.primary',
        'the primary band was planned as 10 to 50 Hz and none is named',
      ],
      [{ bands: [low, high] }, 'deviation.bands-added', '50 to 100 Hz was not among the bands planned'],
      [{ bands: [] }, 'deviation.bands-missing', '4 to 10 Hz was planned and is not compared'],
      [{ counts: [[3, 4]] }, 'deviation.runs', '3 runs of each were planned and there are 3 + 4'],
      [
        {
          counts: [
            [3, 3],
            [3, 2],
          ],
        },
        'deviation.runs',
        '3 runs of each in every stratum were planned and there are 3 + 3 and 3 + 2',
      ],
      [
        { order: undefined },
        'deviation.order',
        'the order was planned as ABBAAB and is not known: give it in the run sheet',
      ],
      [{ order: 'AAABBB' }, 'deviation.order', 'the order was planned as ABBAAB and was AAABBB'],
      [{ includesExcluded: true }, 'deviation.excluded', 'runs that the sheet excludes were taken in'],
    ];
    for (const [change, code, message] of cases) {
      const { deviations } = planFollowed('p', plan(settled), { ...asPlanned, ...change });
      assert.deepEqual(
        deviations.map((one) => [one.code, one.message]),
        [[code, message]],
      );
    }
  });

  it('forbids a verdict only where another level was measured', () => {
    const done = { ...asPlanned, metric: 'vdv', channel: 'x', margin: 0.1 };
    assert.deepEqual(
      planFollowed('p', plan(settled), done).unplanned?.map(({ code }) => code),
      ['deviation.metric', 'deviation.channel'],
    );
  });

  it('is told with the name of the plan as it is written', () => {
    const followed = planFollowed('p $& q', plan(settled), { ...asPlanned, counts: [[2, 3]] });
    assert.deepEqual(
      planWarnings(followed, 1).map(({ code, message }) => [code, message]),
      [['plan.deviates', 'This is not as planned in p $& q: 3 runs of each were planned and there are 2 + 3.']],
    );
    assert.match(planWarnings(undefined, 1)[0].message, /that this band was chosen/);
    assert.match(planWarnings(undefined, 2)[0].message, /that these bands were chosen/);
  });
});

describe('two bands', () => {
  it('are one where their edges are the same to rounding', () => {
    assert.ok(sameBand({ from: 0.1 + 0.2, to: 50 }, { from: 0.3, to: 50 }));
    assert.ok(!sameBand({ from: 10, to: 50 }, { from: 10, to: 50.001 }));
    assert.ok(!sameBand({ from: 10, to: 50 }, { from: 10.001, to: 50 }));
  });
});
