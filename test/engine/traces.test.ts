import { strict as assert } from 'node:assert';
import { look } from '../../src/engine/look.ts';
import { envelopeOf, lookAt } from '../../src/engine/traces.ts';
import { MemoryHost } from './memoryFiles.ts';

describe('a channel in columns', () => {
  it('keeps the lowest and the highest of each, every sample in one of them', () => {
    const samples = Float64Array.from({ length: 1003 }, (_, n) => ((n * 7919) % 1003) - 500);
    const { low, high } = envelopeOf(samples, 10);
    assert.equal(Math.min(...low), -500);
    assert.equal(Math.max(...high), 502);
    assert.ok(low.length >= 10 && low.length <= 11 && low.every((value, n) => value <= high[n]));
  });

  it('has no more columns than samples, and none of what is no number', () => {
    assert.deepEqual(envelopeOf(Float64Array.of(1, NaN, 3), 600), { low: [1, 3], high: [1, 3] });
  });
});

describe('a look for a page', () => {
  const rows = Array.from({ length: 400 }, (_, n) => `${(n / 100).toFixed(2)},${n % 5},1.0${n % 7}`);
  const host = new MemoryHost({ 'a.csv': `t (s),temperature (C),z (g)\n${rows.join('\n')}\n`, 'b.csv': 'nothing\n' });

  it('has the axes first, their length in s and what was found', async () => {
    const { traces, seconds, findings, ok } = lookAt(await look(await host.files.open('a.csv'), {}));
    assert.equal(ok, true);
    assert.deepEqual(traces[0].channel, 'z');
    assert.equal(seconds, 4);
    assert.ok(findings.every(({ message }) => message.length > 10));
  });

  it('says why a file can’t be read, and draws nothing of it', async () => {
    const { ok, lines, traces } = lookAt(await look(await host.files.open('b.csv'), {}));
    assert.equal(ok, false);
    assert.deepEqual(traces, []);
    assert.match(lines.join(), /can't be read/);
  });
});
