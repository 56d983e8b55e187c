import { strict as assert } from 'node:assert';
import { read, unwatched } from '../../src/readers/read.ts';
import { readChecked } from '../../src/readers/readChecked.ts';
import { rows, source } from './memory.ts';

/** Two seconds at 100 Hz with z held at 1.2 g from there on, and a gap before row 150. */
const text =
  't (s),x (g),y (g),z (g)\n' +
  rows(200, (i) => {
    const swing = 0.25 * Math.sin(0.7 * i) + 0.15 * Math.sin(1.93 * i) + 0.1 * Math.sin(0.31 * i);
    return [
      ((i < 150 ? i : i + 20) / 100).toFixed(2),
      (swing / 3).toFixed(3),
      (swing / 5).toFixed(3),
      Math.min(1.2, 1 + swing).toFixed(3),
    ];
  });

describe('a recording with its checks', () => {
  it('begins its findings with the faults of the samples', async () => {
    const [plain, checked] = [await read(source(text)), await readChecked(source(text), {}, unwatched)];
    assert.ok(plain.ok && checked.ok);
    const own = plain.value.findings.map(({ code }) => code);
    assert.deepEqual(own, ['gap']);
    assert.deepEqual(
      checked.value.findings.map(({ code, severity }) => [code, severity]),
      [['clipped', 'fault'], ...plain.value.findings.map(({ code, severity }) => [code, severity])],
    );
  });

  it('knows the range that the file states, so that two peaks at its end are clipped', async () => {
    const peaks = text.split('\n').map((row, i) => (i === 20 || i === 90 ? row.replace(/[^,]*$/, '3.000') : row));
    const found = async (range: string): Promise<string[]> => {
      const read = await readChecked(source(`Range: ${range}\n${peaks.join('\n')}`), {}, unwatched);
      return read.ok ? read.value.findings.map(({ code }) => code) : [read.failure.code];
    };
    assert.deepEqual(await found('±3 g'), ['clipped', 'gap']);
    assert.deepEqual(await found('±6 g'), ['gap']);
  });

  it('is refused as it is without them', async () => {
    const found = await readChecked(source(''), {}, unwatched);
    assert.ok(!found.ok && found.failure.code === 'empty');
  });
});
