import { strict as assert } from 'node:assert';
import { fieldOf } from '../../../src/values/fields.ts';
import { toJson } from '../../../src/values/json.ts';
import { changeIn, exampleRecords, recordOf } from '../exampleRecords.ts';
import { errorOf, near, valueOf, warningsOf } from '../notebook.ts';
import { loadPads, pads, worked } from '../pads.ts';

/** All of one pad before all of the other. */
const inTurn = { ...worked, order: [1, 2, 3, 4, 5, 6] };
const record = (changes: Record<string, unknown>): Record<string, string> => ({ 'x.record.json': recordOf(changes) });
const spring = changeIn('C', { to: 30 });
const study = { ...pads(worked), ...record(spring) };
const compared = `${loadPads}C = compare foam with gel over 10..30 Hz\nE = earlier "x.record.json"\n`;

describe('pool', () => {
  it('makes one change of two with equal weights, as scipy does', async () => {
    // scipy 1.17.1: Welch's difference, error and degrees of freedom of the worked example and -12 % (.02, 5) of ln:
    // mean of both, hypot of the errors / 2, Satterthwaite, t.ppf(.975, df).
    const { rows, studies } = await valueOf('pooled', `${compared}pool C, E`, study);
    assert.deepEqual(studies, ['C', 'spring']);
    const [row] = rows;
    near(row.changePercent, -13.101370451210714, 1e-5);
    near(row.lowPercent, -15.875608156703935, 1e-5);
    near(row.highPercent, -10.235644478427348, 1e-5);
    near(row.standardError, 0.014157594257086398, 1e-5);
    near(row.df, 8.296177574144618, 1e-4);
    near(row.p, 6.957087417239509e-6, 1e-3);
    assert.equal(row.outcome, 'lower');
  });

  it('names its studies and their own changes in its sentence', async () => {
    const { rows } = await valueOf('pooled', `${compared}pool C, E`, study);
    assert.equal(
      rows[0].sentence,
      'Acceleration r.m.s. (z, 10 to 30 Hz) was 13.1 % lower with gel than with foam, C and spring pooled with equal weights (95 % interval 10.2 to 15.9 %; C by itself −14.2 % in 3 + 3 runs, spring by itself −12.0 %). It holds of these studies, not of others.',
    );
  });

  it('has fields and JSON with each study', async () => {
    const value = await valueOf('pooled', `${compared}pool C, E`, study);
    const change = fieldOf(value, 'change');
    assert.ok(change.ok && change.value.kind === 'quantity');
    near(change.value.quantity.value, -13.1014, 1e-5);
    const json = toJson(value) as { weights: string; rows: { studies: { study: string }[] }[] };
    assert.equal(json.weights, 'equal');
    assert.deepEqual(
      json.rows[0].studies.map((one) => one.study),
      ['C', 'spring'],
    );
  });

  it('holds the intervals of several changes together, the primary one of every study by itself', async () => {
    const two = { ...changeIn('C', { primary: false }), ...changeIn('C', { from: 4, to: 9, primary: false }) };
    const files = {
      'x.record.json': recordOf(two),
      'y.record.json': recordOf(two, { sources: [] }),
    };
    const pooled = 'pool (earlier "x.record.json" label "x"), (earlier "y.record.json" label "y")';
    const { rows } = await valueOf('pooled', pooled, files);
    assert.deepEqual(
      rows.map(({ family }) => family),
      [2, 2],
    );
    const one = await valueOf('pooled', `P = ${pooled}\nP[1]`, files);
    assert.equal(one.rows.length, 1);
    const firstOnly = { ...changeIn('C'), ...changeIn('C', { from: 4, to: 9, primary: false }) };
    const apart = await valueOf('pooled', pooled, {
      'x.record.json': recordOf(firstOnly),
      'y.record.json': recordOf(firstOnly, { sources: [] }),
    });
    assert.deepEqual(
      apart.rows.map(({ family, primary }) => [family, primary]),
      [
        [1, true],
        [1, false],
      ],
    );
  });

  it('gives no verdict where one of its studies may not', async () => {
    const guarded = { ...spring, 'C.guards[1]': 'all runs of one side came first' };
    const { rows } = await valueOf('pooled', `${compared}pool C, E`, { ...pads(worked), ...record(guarded) });
    assert.equal(rows[0].outcome, 'not shown');
    assert.match(rows[0].sentence, /is not shown: .* was found, .* but in spring, all runs of one side came first\.$/);
  });

  it('gives no verdict where all runs of one condition came first, in this notebook or in the other', async () => {
    const apart = { ...spring, 'C.sequence': 'apart', 'C.rows[10..30 Hz].outcome': 'not shown' };
    const { rows } = await valueOf('pooled', `${compared}pool C, E`, { ...pads(worked), ...record(apart) });
    assert.equal(rows[0].outcome, 'not shown');
    assert.match(rows[0].sentence, /but in spring, all runs of one condition came before the other’s, so that a drift/);
    const own = await valueOf('pooled', `${compared}pool C, E`, { ...pads(inTurn), ...record(spring) });
    assert.equal(own.rows[0].outcome, 'not shown');
    assert.match(own.rows[0].sentence, /but in C, all runs of one condition came before/);
  });

  it('refuses a study that is this one, by the hashes of its recordings', async () => {
    const { createHash } = await import('node:crypto');
    const foam = pads(worked)['foam-1.csv'];
    const sha256 = createHash('sha256').update(foam).digest('hex');
    const same = recordOf(
      { ...spring, 'C.a_runs[1]': 'foam-1' },
      { sources: [{ path: 'foam-1.csv', bytes: foam.length, sha256 }] },
    );
    const { code, message } = await errorOf(`${compared}pool C, E`, { ...pads(worked), 'x.record.json': same });
    assert.equal(code, 'pool.shared');
    assert.match(message, /foam-1\.csv/);
  });

  it('matches several conditions by their names, and tells what is left', async () => {
    const several = { ...spring, ...changeIn('D', { condition: 'rubber', to: 30 }) };
    const files = { ...pads(worked), ...record(several) };
    assert.deepEqual(
      await warningsOf(`${compared}pool C, E`, files).then((codes) => codes.filter((c) => c.startsWith('pool'))),
      ['pool.left'],
    );
    const other = record(changeIn('C', { condition: 'rubber', to: 30 }));
    const codes = await warningsOf(`${compared}pool C, E`, { ...pads(worked), ...other });
    assert.ok(codes.includes('pool.names'));
  });

  it('draws each study beside a comparison by a shape of its own', async () => {
    const files = { ...pads(worked), ...exampleRecords };
    const chart = await valueOf(
      'chart',
      `${loadPads}C = compare foam with gel over 10..50 Hz\nplot C, (earlier "spring/ride.record.json")`,
      files,
    );
    assert.deepEqual(
      chart.subjects.map(({ value }) => value.kind),
      ['comparison', 'earlier'],
    );
  });
});
