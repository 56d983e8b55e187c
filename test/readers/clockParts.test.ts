import { strict as assert } from 'node:assert';
import { recordingOf, refusalOf, rows } from './memory.ts';

/** 600 rows of a clock that goes on by one minute, or one second, every hundred. */
const clocked = (header: string, stamp: (k: number) => string): string =>
  `${header},z (g)\n` + rows(600, (i) => [stamp(Math.floor(i / 100)), (1 + 0.1 * Math.sin(i)).toFixed(3)]);
const ten = (k: number): string => `10:${20 + k}`;

describe('a clock of two parts', () => {
  it('is refused where it could be hours and minutes or minutes and seconds', async () => {
    const { code, message } = await refusalOf(clocked('time', ten));
    assert.equal(code, 'clock-parts');
    assert.match(message, /clock "hh:mm" or clock "mm:ss"/);
  });

  it('is settled by the option, the header, a part above 23 and a stated rate', async () => {
    const rate = async (text: string, options = {}): Promise<number> => (await recordingOf(text, options)).clock.rate;
    assert.equal(await rate(clocked('time', ten), { clock: 'mm:ss' }), 100);
    assert.ok(Math.abs((await rate(clocked('time', ten), { clock: 'hh:mm' })) - 100 / 60) < 1e-9);
    assert.ok(Math.abs((await rate(clocked('Time hh:mm', ten))) - 100 / 60) < 1e-9);
    assert.equal(await rate(clocked('Time (mm:ss)', ten)), 100);
    assert.equal(await rate(clocked('time', (k) => `37:${20 + k}`)), 100);
    const { layout } = await recordingOf(clocked('time', ten), { rate: 1.7 });
    assert.equal(layout.time?.style, 'clock h:m');
  });

  it('is no time where a stated rate fits neither, and hours and minutes beside a date', async () => {
    assert.equal((await recordingOf(clocked('time', ten), { rate: 5000 })).layout.time, undefined);
    const dated = await recordingOf(clocked('time', (k) => `2026-03-01 10:${20 + k}`));
    assert.equal(dated.layout.time?.quantum, 60);
    assert.equal(dated.clock.epoch, Date.UTC(2026, 2, 1, 10, 20) / 1000);
  });
});
