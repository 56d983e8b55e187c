import { strict as assert } from 'node:assert';
import { findingOf, recordingOf, rows, samplesOf } from './memory.ts';

const with37 = (cell: string | number): string =>
  't (s),x (g),z (g)\n' +
  rows(200, (i) => [(i / 100).toFixed(2), i === 37 ? cell : Math.sin(i).toFixed(3), i === 37 ? cell : 1]);

describe('numbers for no reading', () => {
  it('made of nines far beyond all others are no readings, told once for all columns', async () => {
    for (const cell of [9999999, -9999, '9999.99', '99999.0']) {
      const recording = await recordingOf(with37(cell));
      assert.equal(samplesOf(recording, 'x').length, 199, String(cell));
      assert.equal(recording.findings.filter(({ code }) => code === 'sentinel').length, 1);
      assert.match(findingOf(recording, 'sentinel')!.message, /"x \(g\)" and "z \(g\)" hold .*first at line 39/);
    }
  });

  it('are left alone where others come near them, and where they are no nines', async () => {
    for (const cell of [9, 99, 32767, 10000]) assert.equal(samplesOf(await recordingOf(with37(cell)), 'x').length, 200);
    const counts = 't (s),x,z\n' + rows(200, (i) => [(i / 100).toFixed(2), 9800 + i, 1]);
    assert.equal(samplesOf(await recordingOf(counts, { unit: 'mg' }), 'x').length, 200);
  });

  it('are those that only damage makes so large, whose powers would be infinite', async () => {
    for (const cell of ['1.7976931348623157e308', '-4e75']) {
      const recording = await recordingOf(with37(cell));
      assert.equal(samplesOf(recording, 'x').length, 199, cell);
      assert.match(findingOf(recording, 'empty-cells')!.message, /^1 row of 200 lacks a reading/);
    }
    assert.equal(samplesOf(await recordingOf(with37('1e40')), 'x').length, 200);
    const both = with37('1e60').replace('\n0.50,', '\n0.50,1e61,1\n0.505,');
    assert.equal(samplesOf(await recordingOf(both), 'x').length, 200);
  });

  it('can be stated, and then nothing else is one', async () => {
    assert.equal(samplesOf(await recordingOf(with37(-5), { sentinels: [-5, 7] }), 'x').length, 199);
    assert.equal(samplesOf(await recordingOf(with37(9999), { sentinels: [-5] }), 'x').length, 200);
  });
});
