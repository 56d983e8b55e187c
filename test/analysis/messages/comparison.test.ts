import { strict as assert } from 'node:assert';
import { methodText, tell } from '../../../src/analysis/messages/comparison.ts';

describe('the words of a method', () => {
  it('name it with the runs it rests on, or say why there is no interval', () => {
    const runs = { runsA: 3, runsB: 4 };
    assert.equal(
      methodText({ method: 'welch', ...runs }),
      'Welch t interval on the logarithms of the runs, 3 + 4 runs',
    );
    assert.equal(methodText({ method: 'trend', ...runs }), 'linear trend over the run order taken out, 3 + 4 runs');
    assert.equal(
      methodText({ method: 'one run each', runsA: 1, runsB: 1 }),
      'one run each: within these two runs only; not evidence about the change itself',
    );
    assert.equal(
      methodText({ method: 'no inference', runsA: 2, runsB: 2 }),
      '2 + 2 runs: too few to infer anything about other runs; at least 3 of each are needed',
    );
  });
});

describe('a result in a sentence', () => {
  const place = {
    band: { from: 10, to: 50 },
    metric: undefined,
    a: 'cost $& of A',
    b: '-5 lower',
    changePercent: -14.19,
  };
  const interval = { lowPercent: -19.07, highPercent: -9.01, confidence: 0.95 };

  it('begins with the band, the metric of the whole signal, or both', () => {
    const found = '-5 lower vibrates less than cost $& of A: −14.2 % (95 % interval −19.1 to −9.0 %).';
    assert.equal(tell('result.lower', { ...place, ...interval }).message, `From 10 to 50 Hz ${found}`);
    assert.equal(
      tell('result.lower', {
        ...place,
        ...interval,
        band: { from: 7.1, to: 8.9, label: '8' },
        metric: 'Wk-weighted band r.m.s.',
      }).message,
      `In the band of 8 Hz, by the Wk-weighted band r.m.s., ${found}`,
    );
    assert.equal(
      tell('result.lower', { ...place, ...interval, band: undefined, metric: 'vibration dose value' }).message,
      `By the vibration dose value ${found}`,
    );
  });

  it('says of a difference that is not shown what the data rule out, or that it may be chance', () => {
    assert.match(
      tell('result.unclear', { ...place, ...interval, eitherWayPercent: 19.07 }).message,
      /^From 10 to 50 Hz no difference is shown: −14\.2 % .*rule out a change of more than 19\.1 % either way/,
    );
    assert.match(
      tell('result.chance', { ...place, ...interval, bands: 3, pAdjusted: 0.0612 }).message,
      /but 3 bands were compared, and then it may be chance \(p 0\.061 for all of them\)\.$/,
    );
  });

  it('claims nothing of one run each', () => {
    assert.match(
      tell('result.one-run-each', { ...place, within: interval }).message,
      /\(one run each; 95 % interval −19\.1 to −9\.0 % within these two runs only\): that is no evidence/,
    );
    assert.match(tell('result.one-run-each', { ...place, within: undefined }).message, /\(one run each\): that/);
  });
});
