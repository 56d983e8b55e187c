import { strict as assert } from 'node:assert';
import { methodText, tell } from '../../../src/analysis/messages/comparison.ts';

describe('the words of a method', () => {
  it('name it with the runs it rests on, or say why there is no interval', () => {
    const runs = { runsA: 3, runsB: 4 };
    assert.equal(
      methodText({ method: 'welch', ...runs }),
      'Welch t interval on the logarithms of the runs, order not known, 3 + 4 runs',
    );
    assert.equal(
      methodText({ method: 'trend', ...runs }),
      't interval on the logarithms of the runs, steady drift taken out, 3 + 4 runs',
    );
    assert.equal(
      methodText({ method: 'one run each', runsA: 1, runsB: 1 }),
      'one run each, which says nothing about other runs',
    );
    assert.equal(
      methodText({ method: 'no inference', runsA: 2, runsB: 2 }),
      '2 + 2 runs: too few to infer anything about other runs; at least 3 of each are needed',
    );
  });
});

describe('a result in a sentence', () => {
  const place = {
    level: 'acceleration r.m.s.',
    channel: 'z',
    band: { from: 100, to: 400 },
    a: 'cost $& of A',
    b: '-5 lower',
    changePercent: -60.2,
    method: 'trend',
    runsA: 4,
    runsB: 4,
    order: 'ABBABAAB',
  } as const;
  const interval = { lowPercent: -63.1, highPercent: -57.1, confidence: 0.95, family: 1 };

  it('names quantity, axis, band, both sides, change, interval, runs and order', () => {
    assert.equal(
      tell('result.lower', { ...place, ...interval }).message,
      'Acceleration r.m.s. (z, 100 to 400 Hz) was 60.2 % lower with -5 lower than with cost $& of A (95 % interval 57.1 to 63.1 %; 4 + 4 runs in order ABBABAAB, steady drift taken out).',
    );
    assert.equal(
      tell('result.higher', {
        ...place,
        ...{ changePercent: 12, lowPercent: 8, highPercent: 16.04, confidence: 0.9, family: 3 },
        ...{ level: 'vibration dose value', band: undefined, order: undefined, method: 'welch' },
      }).message,
      'Vibration dose value (z) was 12.0 % higher with -5 lower than with cost $& of A (interval 8.0 to 16.0 %, 90 % for all 3 bands together; 4 + 4 runs, order not known).',
    );
    assert.match(
      tell('result.equivalent', { ...place, ...interval, margin: 0.7 }).message,
      /^Acceleration r\.m\.s\. \(z, 100 to 400 Hz\) was the same within ±70 % with -5 lower and with cost \$& of A: −60\.2 % \(95 % interval −63\.1 to −57\.1 %; /,
    );
  });

  it('says of a difference that is not shown why, and what the data rule out', () => {
    const begins =
      /^A difference in acceleration r\.m\.s\. \(z, 100 to 400 Hz\) between -5 lower and cost \$& of A is not shown/;
    const said = [
      tell('result.not-shown', { ...place, ...interval, eitherWayPercent: 19.07 }),
      tell('result.apart', { ...place, ...interval }),
      tell('result.unplanned', { ...place, ...interval }),
      tell('result.one-run-each', { ...place, method: 'one run each', runsA: 1, runsB: 1 }),
      tell('result.few-runs', { ...place, method: 'no inference', runsA: 2 }),
      tell('result.no-scatter', place),
    ].map(({ message }) => message);
    for (const sentence of said) assert.match(sentence, begins);
    assert.match(said[0], /rule out a change of more than 19\.1 % either way/);
    for (const sentence of said.slice(3)) assert.doesNotMatch(sentence, /interval/);
  });
});
