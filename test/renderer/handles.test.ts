import { strict as assert } from 'node:assert';
import type { Locator } from 'playwright-core';
import type { Handle, HandleEnd } from '../../src/charts/handle.ts';
import type { Output } from '../../src/charts/output.ts';
import { present } from '../../src/charts/present.ts';
import { everyValue, plotOf } from '../charts/everyValue.ts';
import { foamSpectrum } from '../charts/madeUp.ts';
import { handlesBundle, pageOfTests } from './page.ts';

const end = (word: string, at: number, text: string, unit: string, factor: number, rest = {}): HandleEnd => ({
  word,
  at,
  literal: {
    cell: 3,
    from: 10,
    to: 12,
    text,
    unit,
    factor,
    origin: 0,
    sign: 1,
    slot: { name: 'foam', verb: 'trim', slot: 'stretch', entry: 0, part: word === 'end' ? 1 : 0 },
  },
  ...rest,
});
const trim: Handle = {
  name: 'trim',
  where: 'cell 4, Foam',
  axis: 'time',
  ends: [
    end('start', 8, '8', 's', 1, { least: 0, most: 85 }),
    end('end', 76, '76000', 'ms', 0.001, { least: 0, most: 85 }),
  ],
};
const band: Handle = {
  name: 'primary band',
  where: 'cell 1',
  axis: 'frequency',
  ends: [end('lower edge', 10, '10', 'Hz', 1), end('upper edge', 50, '50', 'Hz', 1)],
  locked: 'settled by the plan P',
};
/** The traces as they would be with so many times the vibration. */
function louder(factor: number): Output {
  const runs = everyValue.runs.runs.map((run) => ({
    ...run,
    channels: run.channels.map((channel) =>
      channel.axes === undefined ? { ...channel, samples: channel.samples.map((sample) => factor * sample) } : channel,
    ),
  }));
  return { ...present(plotOf([{ ...everyValue.runs, runs }]), undefined, []), handles: [trim] };
}
const traces = { ...present(plotOf([everyValue.runs]), undefined, []), handles: [trim] };
const spectra = { ...present(plotOf([foamSpectrum]), undefined, []), handles: [band] };

describe('handles over charts', () => {
  const host = pageOfTests();
  beforeEach(async () => {
    await host.dispose();
    await host.page.evaluate(() => document.body.replaceChildren());
    await host.asked();
  });

  const slider = (name: RegExp): Locator => host.page.getByRole('slider', { name });
  const value = (name: RegExp): Promise<string | null> => slider(name).getAttribute('aria-valuetext');
  const x = async (name: RegExp): Promise<number> => {
    const { x: left, width } = (await slider(name).boundingBox())!;
    return left + width / 2;
  };
  async function draw(output: object): Promise<void> {
    await host.render('one', output);
    await host.page.locator('.washboard-layer').first().waitFor();
  }
  async function drag(name: RegExp, by: number): Promise<void> {
    await slider(name).scrollIntoViewIfNeeded();
    const box = (await slider(name).boundingBox())!;
    await host.page.mouse.move(box.x + box.width / 2, box.y + 40);
    await host.page.mouse.down();
    await host.page.mouse.move(box.x + box.width / 2 + by, box.y + 40, { steps: 3 });
  }
  const moves = async (): Promise<object[]> =>
    (await host.asked()).flatMap((asked) =>
      asked.type === 'move' ? [{ text: asked.text, unit: asked.literal.unit }] : [],
    );

  it('stand where the chart draws their numbers, over all panels of the set', async () => {
    await draw(traces);
    const [start, stop] = [await x(/^Trim start/), await x(/^Trim end/)];
    const pixels = (stop - start) / (76 - 8);
    // 85 s are drawn from edge to edge of the plot.
    const plot = (await host.page
      .locator('.washboard-picture svg .mark-group.role-scope .background')
      .first()
      .boundingBox())!;
    assert.ok(Math.abs(pixels - plot.width / 85) < 0.1, `${pixels} px a second over ${plot.width} px`);
    assert.ok(Math.abs(start - (plot.x + 8 * pixels)) < 2);
    const { height } = (await slider(/^Trim start/).boundingBox())!;
    const drawn = (await host.page.locator('.washboard-picture svg').boundingBox())!;
    assert.ok(height > 0.75 * drawn.height, `${height} of ${drawn.height} px`);
  });

  it('write the number in its own unit on release, rounded to what a pixel can tell', async () => {
    await draw(traces);
    await drag(/^Trim start/, 50);
    assert.deepEqual(await moves(), []);
    await host.page.mouse.up();
    const [{ text, unit }] = (await moves()) as [{ text: string; unit: string }];
    assert.equal(unit, 's');
    assert.match(text, /^1\d(\.[2468])?$/);
    await drag(/^Trim end/, -50);
    await host.page.mouse.up();
    const [second] = (await moves()) as [{ text: string; unit: string }];
    assert.equal(second.unit, 'ms');
    assert.match(second.text, /^[67]\d{2}00$|^[67]\d{3}00$/);
  });

  it('say the value and the cell while they move, and nothing is written where Escape or a lost pointer ends it', async () => {
    await draw(traces);
    await drag(/^Trim start/, 50);
    assert.match(
      (await host.page.locator('.washboard-says:visible').textContent()) ?? '',
      /^trim start: 1\d(\.\d)? s · writes cell 4, Foam$/,
    );
    await host.page.keyboard.press('Escape');
    await host.page.mouse.up();
    assert.equal(await value(/^Trim start/), '8 s');
    await drag(/^Trim start/, 50);
    await slider(/^Trim start/).dispatchEvent('pointercancel', { pointerId: 1 });
    await host.page.mouse.up();
    assert.equal(await value(/^Trim start/), '8 s');
    assert.deepEqual(await moves(), []);
  });

  it('go by arrows, Page and Home to their limits, and never past the other end', async () => {
    await draw(traces);
    await slider(/^Trim start/).focus();
    await host.page.keyboard.press('ArrowRight');
    const step = Number.parseFloat((await value(/^Trim start/))!) - 8;
    assert.ok(step > 0 && step <= 0.5, `${step} s`);
    await host.page.keyboard.press('PageUp');
    assert.ok(Math.abs(Number.parseFloat((await value(/^Trim start/))!) - 8 - 11 * step) < 1e-6);
    await host.page.keyboard.press('Home');
    assert.equal(await value(/^Trim start/), '0 s');
    await host.page.keyboard.press('End');
    const most = Number.parseFloat((await value(/^Trim start/))!);
    assert.ok(most < 76 && most > 75, `${most} s`);
    await host.page.keyboard.press('Enter');
    assert.deepEqual(await moves(), [{ text: String(most), unit: 's' }]);
  });

  it('of a plan are locked, and say why', async () => {
    await draw(spectra);
    const locked = slider(/^Primary band lower edge, cell 1, locked: settled by the plan P$/);
    assert.equal(await locked.getAttribute('aria-disabled'), 'true');
    await locked.focus();
    assert.match(
      (await host.page.locator('.washboard-says:visible').textContent()) ?? '',
      /10 Hz · settled by the plan P$/,
    );
    await host.page.keyboard.press('ArrowRight');
    await drag(/^Primary band lower/, 40);
    await host.page.mouse.up();
    assert.equal(await locked.getAttribute('aria-valuetext'), '10 Hz');
    assert.deepEqual(await host.asked(), []);
  });

  it('keep the focus, and a move that was begun, when the chart is drawn anew', async () => {
    await draw(traces);
    await drag(/^Trim end/, -40);
    const begun = await value(/^Trim end/);
    assert.notEqual(begun, '76000 ms');
    await draw(traces);
    const focused = (): Promise<boolean> => slider(/^Trim end/).evaluate((node) => node === document.activeElement);
    while (!(await focused())) await host.page.waitForTimeout(50);
    assert.equal(await value(/^Trim end/), begun);
    await host.page.mouse.up();
    await host.page.keyboard.press('Enter');
    assert.deepEqual(await moves(), [{ text: Number.parseFloat(begun!).toString(), unit: 'ms' }]);
  });

  it('have their own chart drawn anew once the number is written, though a preview had told it before', async () => {
    await draw(traces);
    // The curves alone: where the pointer is, changes the rest.
    const svg = (): Promise<string> =>
      host.page
        .locator('.washboard-drawing svg .mark-area path')
        .evaluateAll((all) => all.map((path) => path.getAttribute('d')).join());
    const before = await svg();
    const data = louder(0.5);
    await drag(/^Trim start/, 50);
    await host.tell({ type: 'previewed', output: 'of one', shown: [{ output: 'of one', data }] });
    assert.equal(await svg(), before);
    await host.page.mouse.up();
    await host.render('one', data);
    for (let tries = 0; tries < 100 && (await svg()) === before; tries++) await host.page.waitForTimeout(50);
    assert.notEqual(await svg(), before);
    assert.deepEqual(host.complaints, []);
  });

  it('ask what is written as a preview too, and draw that alone, their own chart included', async () => {
    const { width } = host.page.viewportSize()!;
    await host.page.setViewportSize({ width, height: 3000 });
    await draw(traces);
    await host.page.waitForTimeout(400);
    await drag(/^Trim start/, 50);
    const types = async (count: number): Promise<string[]> => {
      const all: string[] = [];
      for (let tries = 0; tries < 100 && all.length < count; tries++) {
        all.push(...(await host.asked()).map((one) => ('text' in one ? `${one.type} ${one.text}` : one.type)));
        await host.page.waitForTimeout(50);
      }
      return all;
    };
    assert.match((await types(1)).join(), /^preview /);
    await host.page.mouse.up();
    const text = Number.parseFloat((await value(/^Trim start/))!).toString();
    assert.deepEqual(await types(2), [`preview ${text}`, `move ${text}`]);
    const drawn = (): Promise<string> => host.page.locator('.washboard-drawing svg .mark-area').first().innerHTML();
    const before = await drawn();
    const told = (data: Output): Promise<void> =>
      host.tell({ type: 'previewed', output: 'of one', shown: [{ output: 'of one', data }] });
    // The answer to what was asked before the release comes first, and is passed over.
    await told(louder(0.5));
    await host.page.waitForTimeout(300);
    assert.equal(await drawn(), before);
    await told(louder(0.25));
    for (let tries = 0; tries < 100 && (await drawn()) === before; tries++) await host.page.waitForTimeout(50);
    assert.notEqual(await drawn(), before);
    await host.page.setViewportSize({ width, height: 900 });
    assert.deepEqual(host.complaints, []);
  });

  it('go back, and say why, where the editor refuses', async () => {
    await draw(traces);
    await drag(/^Trim start/, 50);
    await host.page.mouse.up();
    await host.tell({ type: 'refused', output: 'of one', message: 'It is gone.' });
    assert.equal(await host.page.locator('.washboard-refused').textContent(), 'It is gone.');
    assert.equal(await value(/^Trim start/), '8 s');
  });

  it('ask the editor to take back and to do again', async () => {
    await draw(traces);
    await slider(/^Trim start/).focus();
    await host.page.keyboard.press('Control+z');
    await host.page.keyboard.press('Control+Shift+z');
    assert.deepEqual(
      (await host.asked()).map((one) => [one.type, 'output' in one && one.output]),
      [
        ['undo', 'of one'],
        ['redo', 'of one'],
      ],
    );
    assert.deepEqual(host.complaints, []);
  });

  it('show what is moved in the outputs that depend on it, one request at a time, the latest value last', async () => {
    // High enough for both outputs to be in view.
    const { width } = host.page.viewportSize()!;
    await host.page.setViewportSize({ width, height: 3000 });
    await host.render('other', spectra);
    await draw(traces);
    const previews = async (): Promise<string[]> => {
      for (let tries = 0; tries < 100; tries++) {
        const asked = (await host.asked()).flatMap((one) =>
          one.type === 'preview' ? [`${one.seen.join()}: ${one.text}`] : [],
        );
        if (asked.length > 0) return asked;
        await host.page.waitForTimeout(50);
      }
      return [];
    };
    // The charts come to rest, and which outputs are in view is told a frame later.
    let [top, last] = [0, -1];
    while (top !== last) {
      await host.page.waitForTimeout(400);
      [last, top] = [top, (await slider(/^Trim start/).boundingBox())!.y];
    }
    await drag(/^Trim start/, 50);
    const first = await previews();
    assert.equal(first.length, 1, first.join('\n'));
    assert.match(first[0], /^of (one,of other|other,of one): /);
    // Moved on while the answer is awaited: nothing more is asked yet.
    const begun = await value(/^Trim start/);
    const box = (await slider(/^Trim start/).boundingBox())!;
    await host.page.mouse.move(box.x + box.width / 2 + 40, box.y + 40);
    for (let tries = 0; tries < 100 && (await value(/^Trim start/)) === begun; tries++)
      await host.page.waitForTimeout(50);
    assert.deepEqual(await host.asked(), []);
    const svg = await host.page.locator('#other svg').elementHandle();
    const before = await host.page.locator('#other svg').innerHTML();
    const entries = foamSpectrum.entries.map((entry) => ({
      ...entry,
      level: entry.level.map((level) => 1.01 * level),
    }));
    const data = present(plotOf([{ ...foamSpectrum, entries }]), undefined, []);
    await host.tell({ type: 'previewed', output: 'of one', shown: [{ output: 'of other', data }] });
    await host.page.waitForFunction((old) => document.querySelector('#other svg')?.innerHTML !== old, before);
    assert.ok(await svg!.evaluate((node) => node.isConnected), 'the view is kept');
    const second = await previews();
    assert.equal(second.length, 1, second.join('\n'));
    assert.equal(second[0].split(': ')[1], Number.parseFloat((await value(/^Trim start/))!).toString());
    await host.page.mouse.up();
    await host.page.setViewportSize({ width, height: 900 });
    assert.deepEqual(host.complaints, []);
  });

  it('are a file of less than 40 kB', async () => {
    const script = await handlesBundle();
    assert.ok(Buffer.byteLength(script) < 40_000, `${Buffer.byteLength(script)} bytes`);
  });
});
