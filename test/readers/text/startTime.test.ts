import { strict as assert } from 'node:assert';
import { recordingOf, rows } from '../memory.ts';

const bare = 'x (g),z (g)\n' + rows(100, (i) => [Math.sin(i).toFixed(3), 1]);
const elapsed = (first: number): string =>
  'time (s),z (g)\n' + rows(100, (i) => [(first + i / 100).toFixed(2), 1 + (i % 3) / 100]);
const began = Date.UTC(2026, 2, 15, 10, 20, 30) / 1000;
const epochOf = async (text: string, options = {}): Promise<number | undefined> =>
  (await recordingOf(text, options)).clock.epoch;

describe('a start time above the rows', () => {
  it('is the time of the first sample where no column tells it', async () => {
    for (const line of [
      'Start time: 2026-03-15 10:20:30',
      '# Start: 2026-03-15T10:20:30Z',
      'Date and time,15.03.2026 10:20:30',
      'Start Date: 15/03/2026\nStart Time: 10:20:30',
      'Recorded at = 15-Mar-2026 10:20:30',
    ])
      assert.equal(await epochOf(`${line}\nSample rate: 200 Hz\n${bare}`), began, line);
  });

  it('counts with an elapsed time, and gives a clock without a date its day', async () => {
    const start = 'Start time: 2026-03-15 10:20:30\n';
    assert.equal(await epochOf(start + elapsed(2.5)), began + 2.5);
    assert.equal(await epochOf(start + elapsed(5321)), began);
    const clock =
      'time,z (g)\n' +
      rows(100, (i) => [`10:20:3${Math.floor(i / 100)}.${String(i % 100).padStart(2, '0')}`, 1 + (i % 3) / 100]);
    assert.equal(await epochOf(start + clock), began);
  });

  it('is moved by the option timezone where it has no offset of its own', async () => {
    const text = `Start time: 2026-03-15 10:20:30\nSample rate: 200 Hz\n${bare}`;
    assert.equal(await epochOf(text, { timezone: '+02:00' }), began - 7200);
    assert.equal(await epochOf(text.replace(':30\n', ':30Z\n'), { timezone: '+02:00' }), began);
  });

  it('is none where the date is in doubt, or is of something else', async () => {
    for (const line of [
      'Start time: at noon',
      'Start: 03/04/2026 10:20:30',
      'Calibration date: 2026-03-15 10:20:30',
      'Stop time: 2026-03-15 10:20:30',
    ])
      assert.equal(await epochOf(`${line}\nSample rate: 200 Hz\n${bare}`), undefined, line);
  });
});
