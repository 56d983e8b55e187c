import { strict as assert } from 'node:assert';
import type { Locator } from 'playwright-core';
import { shownOver } from '../../src/charts/closer.ts';
import type { Asked } from '../../src/charts/handleMessages.ts';
import type { AxisRange, Making, StatementAt } from '../../src/charts/making.ts';
import type { Output } from '../../src/charts/output.ts';
import { present } from '../../src/charts/present.ts';
import type { Value } from '../../src/values/value.ts';
import { everyValue, plotOf } from '../charts/everyValue.ts';
import { foamSpectrum, gelSpectrum } from '../charts/madeUp.ts';
import { light, pageOfTests } from './page.ts';

const statement: StatementAt = { cell: 3, line: 2, text: 'plot S' };
const makings: readonly Making[] = [
  { what: 'trim', axis: 'time', where: 'cell 1, The ride' },
  { what: 'band', axis: 'frequency', where: '', locked: 'the bands are settled by the plan P' },
  { what: 'range', axis: 'frequency', where: 'cell 4' },
  { what: 'mark', axis: 'frequency', where: 'cell 4' },
];
const output = (value: Value): Output => ({ ...present(value, undefined, []), makings, statement });
const spectra = plotOf([foamSpectrum, gelSpectrum]);
const traces = plotOf([everyValue.runs]);

describe('the ground of a chart', () => {
  const host = pageOfTests(light);
  beforeEach(async () => {
    await host.dispose();
    await host.page.evaluate(() => document.body.replaceChildren());
    // Whatever an earlier test asked for is waited for no longer.
    await host.tell({ type: 'closer', output: 'of one', shown: [] });
    await host.asked();
  });
  afterEach(() => assert.deepEqual(host.complaints, []));

  const hair = (): Locator => host.page.getByRole('slider', { name: /^Cross-hair/ });
  const says = async (): Promise<string> => (await hair().getAttribute('aria-valuetext')) ?? '';
  const entries = (): Locator => host.page.getByRole('menuitem');
  const menu = (): Promise<string[]> => entries().filter({ visible: true }).allTextContents();
  const bar = (): Locator => host.page.getByRole('toolbar', { name: 'A closer look' });
  const place = async (): Promise<number> => Number(await hair().getAttribute('aria-valuenow'));

  async function draw(value: Value, id = 'one'): Promise<void> {
    await host.render(id, output(value));
    await host.page.locator(`#${id} .washboard-layer`).first().waitFor();
  }
  /** Where the plot stands once it stays there: a chart that is drawn anew may bring back the bar that the page is scrolled by. */
  async function plotBox(): Promise<{ x: number; y: number; width: number; height: number }> {
    const plot = host.page
      .locator('.washboard-picture svg .role-frame .background, .washboard-picture svg .background')
      .first();
    let box = (await plot.boundingBox())!;
    await until(async () => {
      const before = JSON.stringify(box);
      await host.page.evaluate(() => new Promise((drawn) => requestAnimationFrame(drawn)));
      box = (await plot.boundingBox())!;
      return JSON.stringify(box) === before;
    });
    return box;
  }
  /** A place of the plot, by its share of the width. */
  async function at(share: number): Promise<[number, number]> {
    const box = await plotBox();
    return [box.x + share * box.width, box.y + box.height / 2];
  }
  async function drag(from: number, to: number): Promise<void> {
    await host.page.mouse.move(...(await at(from)));
    await host.page.mouse.down();
    await host.page.mouse.move(...(await at((from + to) / 2)), { steps: 2 });
    await host.page.mouse.move(...(await at(to)), { steps: 2 });
    await host.page.mouse.up();
  }
  async function asked<Type extends Asked['type']>(type: Type): Promise<Extract<Asked, { type: Type }>[]> {
    for (let tries = 0; tries < 100; tries++) {
      const found = (await host.asked()).filter((one) => (one as Asked).type === type);
      if (found.length > 0) return found as unknown as Extract<Asked, { type: Type }>[];
      await host.page.waitForTimeout(50);
    }
    return [];
  }

  it('offers what can be made of a stretch that is dragged, with the cell that is written', async () => {
    await draw(spectra);
    await drag(0.2, 0.6);
    assert.deepEqual(await menu(), [
      'Add this band the bands are settled by the plan P',
      'Keep this range cell 4',
      'Mark here cell 4',
      'Zoom in',
    ]);
    await entries().filter({ hasText: 'Keep this range' }).click();
    const [{ choice, statement: written }] = await asked('make');
    assert.deepEqual(written, statement);
    assert.equal(choice.what, 'range');
    const whole =
      Number(await hair().getAttribute('aria-valuemax')) - Number(await hair().getAttribute('aria-valuemin'));
    assert.ok(Math.abs(choice.to - choice.from - 0.4 * whole) < 3 * choice.grain, JSON.stringify(choice));
    assert.ok(choice.grain > 0 && choice.grain < whole / 100);
    assert.equal(await entries().filter({ visible: true }).count(), 0);
  });

  it('lets a finger choose a stretch across, and leaves it to scroll up and down', async () => {
    await draw(spectra);
    const session = await host.page.context().newCDPSession(host.page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', ...at: readonly (readonly [number, number])[]) =>
      session.send('Input.dispatchTouchEvent', { type, touchPoints: at.map(([x, y]) => ({ x, y })) });
    await touch('touchStart', await at(0.3));
    for (const share of [0.35, 0.4, 0.5]) await touch('touchMove', await at(share));
    await touch('touchEnd');
    await until(async () => (await menu()).includes('Zoom in'));
    const action = await host.page
      .locator('.washboard-drawing svg')
      .evaluate((node) => getComputedStyle(node).touchAction);
    assert.equal(action, 'pan-y');
  });

  it('makes nothing of what a plan settled', async () => {
    await draw(spectra);
    await drag(0.2, 0.6);
    const locked = entries().filter({ hasText: 'Add this band' });
    assert.equal(await locked.getAttribute('aria-disabled'), 'true');
    await locked.click({ force: true });
    assert.deepEqual(await host.asked(), []);
  });

  it('lets a stretch be chosen by keys, and Escape takes back the menu, the stretch and the cross-hair', async () => {
    await draw(traces);
    await hair().focus();
    const before = await place();
    await host.page.keyboard.press('PageDown');
    assert.ok((await place()) < before);
    const from = await place();
    for (let times = 0; times < 3; times++) await host.page.keyboard.press('Shift+PageUp');
    const to = await place();
    assert.match(await says(), /^[\d.]+ to [\d.]+ s \([\d.]+ s\); /);
    await host.page.keyboard.press('Enter');
    assert.deepEqual(await menu(), ['Trim to this cell 1, The ride', 'Zoom in']);
    await host.page.keyboard.press('Escape');
    assert.deepEqual(await menu(), []);
    assert.ok(await hair().evaluate((node) => node === document.activeElement));
    await host.page.keyboard.press('Enter');
    await host.page.keyboard.press('Enter');
    const [{ choice }] = await asked('make');
    assert.deepEqual([choice.what, choice.axis, choice.set], ['trim', 'time', 0]);
    assert.ok(
      Math.abs(choice.from - from) < 1e-3 && Math.abs(choice.to - to) < 1e-3,
      `${from} to ${to}: ${JSON.stringify(choice)}`,
    );
    await host.page.keyboard.press('Escape');
    assert.equal(await says(), 'not placed');
  });

  it('reads all curves at a click, and the difference to a second place in Hz, dB and %', async () => {
    await draw(spectra);
    await host.page.mouse.click(...(await at(0.3)));
    assert.match(await says(), /^[\d.]+ Hz; foam[^;]*: [\d.×⁻⁰-⁹]+ \S+; gel[^;]*: [\d.×⁻⁰-⁹]+ \S+$/);
    assert.equal(
      (await host.page.locator('.washboard-reading:visible > div').allTextContents()).join('; '),
      await says(),
    );
    await host.page.keyboard.down('Shift');
    await host.page.mouse.click(...(await at(0.5)));
    await host.page.keyboard.up('Shift');
    assert.match(
      await says(),
      /^[\d.]+ to [\d.]+ Hz \([\d.]+ Hz\); foam[^;]*: \S+ \S+ → \S+ \S+ \([+−][\d.]+ dB, [+−][\d.]+ %\); gel/,
    );
  });

  it('is looked at closer by a wheel with Ctrl: finer data come from the editor, a bar says so, and leads back', async () => {
    await draw(spectra);
    const whole = [
      Number(await hair().getAttribute('aria-valuemin')),
      Number(await hair().getAttribute('aria-valuemax')),
    ];
    await host.page.mouse.move(...(await at(0.5)));
    await host.page.keyboard.down('Control');
    await host.page.mouse.wheel(0, -100);
    await host.page.keyboard.up('Control');
    const [{ wanted }] = await asked('closer');
    const over = wanted[0].over!;
    assert.equal(wanted[0].output, 'of one');
    assert.ok(Math.abs((over.to - over.from) * 1.25 - (whole[1] - whole[0])) < 0.02 * whole[1], JSON.stringify(over));
    await answer(spectra, over);
    await until(async () => Number(await hair().getAttribute('aria-valuemax')) < whole[1]);
    assert.match((await bar().textContent()) ?? '', /^‹[\d.]+ to [\d.]+ Hz›Show AllLink Charts$/);
    await bar().getByRole('button', { name: 'Show All' }).click();
    const [back] = await asked('closer');
    assert.equal(back.wanted[0].over, undefined);
    await answer(spectra, undefined);
    await until(async () => Number(await hair().getAttribute('aria-valuemax')) === whole[1]);
    assert.equal(await bar().count(), 0);
  });

  const answer = (value: Value, over: AxisRange | undefined, of = 'of one'): Promise<void> =>
    host.tell({ type: 'closer', output: of, shown: [{ output: of, data: shownOver(over, () => output(value)) }] });
  const until = async (holds: () => Promise<boolean>): Promise<void> => {
    for (let tries = 0; !(await holds()); tries++) {
      if (tries > 100) throw new Error('waited in vain');
      await host.page.waitForTimeout(50);
    }
  };

  it('is looked at closer by keys and by a chosen stretch, and shows all again by a key', async () => {
    await draw(traces);
    await hair().focus();
    await host.page.keyboard.press('+');
    const first = (await asked('closer'))[0].wanted[0].over!;
    await answer(traces, first);
    await until(async () => Number(await hair().getAttribute('aria-valuemin')) > first.from - 0.1);
    await drag(0.25, 0.75);
    await entries().filter({ hasText: 'Zoom in' }).click();
    const second = (await asked('closer'))[0].wanted[0].over!;
    assert.ok(second.from > first.from && second.to < first.to, JSON.stringify([first, second]));
    await answer(traces, second);
    await host.page.keyboard.press('0');
    assert.equal((await asked('closer'))[0].wanted[0].over, undefined);
  });

  describe('that is looked at closer', () => {
    let first: AxisRange;
    beforeEach(async () => {
      await draw(spectra);
      await hair().focus();
      for (let times = 0; times < 3; times++) await host.page.keyboard.press('+');
      await answer(spectra, (await asked('closer'))[0].wanted[0].over);
      first = (await asked('closer'))[0].wanted[0].over!;
      await answer(spectra, first);
      await until(async () => Math.abs(Number(await hair().getAttribute('aria-valuemin')) - first.from) < 0.01);
    });
    afterEach(async () => {
      await hair().focus();
      await host.page.keyboard.press('0');
      // Whatever was asked for before that is answered, too.
      for (let times = 0; times < 3; times++) await answer(spectra, undefined);
      await until(async () => (await bar().count()) === 0);
    });
    const next = async (): Promise<AxisRange> => {
      const over = (await asked('closer')).at(-1)?.wanted[0].over;
      return over ?? assert.fail('nothing was asked for');
    };
    const moved = (over: AxisRange, share: number): void => {
      const length = first.to - first.from;
      assert.ok(Math.abs(over.to - over.from - length) < 1e-4 * length, JSON.stringify([first, over]));
      assert.ok(Math.abs(over.from - first.from - share * length) < 0.01 * length, JSON.stringify([first, over]));
    };
    async function dragged(button: 'left' | 'middle', from: number, to: number): Promise<void> {
      await host.page.mouse.move(...(await at(from)));
      await host.page.mouse.down({ button });
      await host.page.mouse.move(...(await at(to)));
      await host.page.mouse.up({ button });
    }

    it('is moved by a drag with Shift or with the middle button, as long as before', async () => {
      await host.page.keyboard.down('Shift');
      await dragged('left', 0.3, 0.5);
      await host.page.keyboard.up('Shift');
      const over = await next();
      moved(over, -0.2);
      assert.deepEqual(await menu(), []);
      await answer(spectra, over);
      await dragged('middle', 0.5, 0.3);
      moved(await next(), 0);
    });

    it('is moved by a wheel with Shift, and by one to the side', async () => {
      await host.page.mouse.move(...(await at(0.5)));
      await host.page.keyboard.down('Shift');
      await host.page.mouse.wheel(0, 100);
      await host.page.keyboard.up('Shift');
      const over = await next();
      assert.ok(over.from > first.from && Math.abs(over.to - over.from - (first.to - first.from)) < 1e-3);
      await answer(spectra, over);
      await host.page.mouse.wheel(-100, 0);
      moved(await next(), 0);
    });

    it('is moved by Ctrl with an arrow and by buttons, no further than the axis goes', async () => {
      assert.ok(await hair().evaluate((node) => node === document.activeElement));
      await host.page.keyboard.press('ControlOrMeta+ArrowRight');
      moved(await next(), 0.5);
      await answer(spectra, first);
      await bar().getByRole('button', { name: 'Lower' }).click();
      moved(await next(), 0);
      await answer(spectra, first);
      await hair().focus();
      for (let times = 0; times < 5; times++) await host.page.keyboard.press('ControlOrMeta+ArrowLeft');
      await answer(spectra, first);
      const least = await next();
      assert.ok(least.from >= 0 && least.from < first.from, JSON.stringify(least));
      assert.ok(Math.abs(least.to - least.from - (first.to - first.from)) < 1e-3, JSON.stringify([first, least]));
    });

    it('follows the cross-hair beyond its edge', async () => {
      await hair().focus();
      await host.page.keyboard.press('End');
      assert.deepEqual(await host.asked(), []);
      await host.page.keyboard.press('ArrowRight');
      moved(await next(), 0.5);
    });

    it('is not moved by a plain drag, which chooses a stretch as ever', async () => {
      await drag(0.3, 0.6);
      assert.ok((await menu()).includes('Zoom in'));
      assert.deepEqual(await host.asked(), []);
    });

    it('can be looked at closer still after it was drawn anew', async () => {
      await draw(spectra);
      await answer(spectra, (await asked('closer'))[0].wanted[0].over);
      await hair().focus();
      await host.page.keyboard.press('+');
      const over = await next();
      assert.ok(over.from > first.from && over.to < first.to, JSON.stringify([first, over]));
    });
  });

  it('looks at the same stretch in all charts over its axis where they are linked', async () => {
    await draw(spectra);
    await draw(plotOf([gelSpectrum]), 'two');
    await draw(traces, 'three');
    await hair().first().focus();
    await host.page.keyboard.press('+');
    const [{ wanted }] = await asked('closer');
    assert.deepEqual(
      wanted.map((one) => one.output),
      ['of one'],
    );
    await answer(spectra, wanted[0].over);
    await bar().getByRole('button', { name: 'Link Charts' }).click();
    const [linked] = await asked('closer');
    assert.deepEqual(
      linked.wanted.map((one) => [one.output, one.over]),
      ['of one', 'of two'].map((one) => [one, wanted[0].over]),
    );
    assert.equal(await bar().getByRole('button', { name: 'Link Charts' }).first().getAttribute('aria-pressed'), 'true');
    await bar().getByRole('button', { name: 'Link Charts' }).first().click();
  });

  it('stays as it was where there is nothing to be seen closer', async () => {
    await draw(spectra);
    await hair().focus();
    await host.page.keyboard.press('+');
    await asked('closer');
    await host.tell({ type: 'closer', output: 'of one', shown: [] });
    await until(async () => (await bar().count()) === 0);
  });

  it('is told to a screen reader with names, roles and values, beside the picture', async () => {
    await draw(spectra);
    const session = await host.page.context().newCDPSession(host.page);
    const { nodes } = await session.send('Accessibility.getFullAXTree');
    const told = nodes
      .filter(({ ignored }) => !ignored)
      .map(({ role, name }) => `${role?.value} ${name?.value}`)
      .filter((one) => /^(img|image|slider|switch|group|button) /.test(one));
    for (const expected of [
      /^(img|image) .*They differ/,
      /^slider Cross-hair, /,
      /^group Legend$/,
      /^switch foam/,
      /^switch gel/,
    ])
      assert.ok(
        told.some((one) => expected.test(one)),
        `${expected}: ${told.join('\n')}`,
      );
    const slider = nodes.find(({ role, ignored }) => role?.value === 'slider' && !ignored)!;
    // The tree holds what it reads out in single precision.
    assert.equal(Number(slider.value?.value), Math.fround(await place()));
  });

  it('hides a series by its entry in the legend, by click and by keys, and reads it no more', async () => {
    await draw(spectra);
    const one = host.page.getByRole('switch', { name: /^gel/ });
    const paths = (): Promise<number> => host.page.locator('.washboard-picture svg .mark-line path').count();
    const all = await paths();
    await one.focus();
    await host.page.keyboard.press('Space');
    await until(async () => (await paths()) < all);
    assert.equal(await one.getAttribute('aria-checked'), 'false');
    await host.page.mouse.click(...(await at(0.3)));
    assert.doesNotMatch(await says(), /gel/);
    await one.click();
    await until(async () => (await paths()) === all);
    assert.equal(await one.getAttribute('aria-checked'), 'true');
  });

  it('says nothing of a hidden series at the pointer', async () => {
    await draw(spectra);
    const tooltip = host.page.locator('.washboard-tooltip:visible');
    await host.page.mouse.move(...(await at(0.3)));
    await host.page.mouse.move(...(await at(0.31)));
    assert.match((await tooltip.textContent()) ?? '', /foam[^]*gel/);
    await host.page.getByRole('switch', { name: /^gel/ }).click();
    await host.page.mouse.move(...(await at(0.4)));
    await host.page.mouse.move(...(await at(0.41)));
    await until(async () => /foam/.test((await tooltip.textContent()) ?? ''));
    assert.doesNotMatch((await tooltip.textContent()) ?? '', /gel/);
  });

  it('reads magnitude, phase and coherence of a transfer, both responses to a shock and a level as it ran', async () => {
    await draw(everyValue.transfer);
    await host.page.mouse.click(...(await at(0.4)));
    assert.match(await says(), /^[\d.]+ Hz; [^;]+: \S+[^;]*; [^;]+, phase: [−\d.]+ °; [^;]+, coherence: [\d.]+/);
    await host.dispose();
    await draw(everyValue.shock);
    await hair().focus();
    await host.page.keyboard.press('ArrowRight');
    assert.match(await says(), /^[\d.]+ Hz; [^;]+: \S+ \S+; [^;]+: \S+ \S+/);
    await host.dispose();
    await draw(everyValue.running);
    await hair().focus();
    await host.page.keyboard.press('Shift+PageUp');
    assert.match(await says(), /^[\d.]+ to [\d.]+ s \([\d.]+ s\); [^;]+ → [^;]+/);
  });

  it('reads time, frequency and level of a spectrogram, by a click and by keys in both directions', async () => {
    await draw(everyValue.spectrogram);
    await host.page.mouse.click(...(await at(0.4)));
    const read = /^([\d.]+) s; ([\d.]+) Hz: \S+ \S+$/;
    const [, time, frequency] = read.exec(await says()) ?? assert.fail(await says());
    await host.page.keyboard.press('ArrowUp');
    const [, same, higher] = read.exec(await says()) ?? assert.fail(await says());
    assert.equal(same, time);
    assert.ok(Number(higher) > Number(frequency), `${frequency}, then ${higher}`);
    await host.page.keyboard.press('ArrowRight');
    const [, later, still] = read.exec(await says()) ?? assert.fail(await says());
    assert.ok(Number(later) > Number(time), `${time}, then ${later}`);
    assert.equal(still, higher);
    await host.page.keyboard.press('Shift+ArrowRight');
    assert.match(await says(), /^[\d.]+ to [\d.]+ s \([\d.]+ s\); [\d.]+ Hz: \S+ \S+ → \S+ \S+ \([+−]?[\d.]+ dB, /);
  });

  it('keeps its reader’s place and hidden series when the chart is drawn anew', async () => {
    // Of an output of its own, for a series that an earlier test hid stays hidden.
    await draw(spectra, 'again');
    await host.page.getByRole('switch', { name: /^gel/ }).click();
    await host.page.mouse.click(...(await at(0.3)));
    const before = await says();
    assert.doesNotMatch(before, /gel/);
    await draw(spectra, 'again');
    await until(async () => (await says()) === before);
    await until(
      async () => (await host.page.getByRole('switch', { name: /^gel/ }).getAttribute('aria-checked')) === 'false',
    );
  });

  it('keeps a drag and the choice that it leads to where the chart is drawn anew meanwhile', async () => {
    await draw(spectra, 'kept');
    await host.page.mouse.move(...(await at(0.2)));
    await host.page.mouse.down();
    await host.page.mouse.move(...(await at(0.4)), { steps: 2 });
    // In its own views, and as another drawing.
    await draw(spectra, 'kept');
    await host.page.mouse.move(...(await at(0.5)), { steps: 2 });
    await host.page.evaluate(() => document.querySelector('#kept')!.replaceChildren());
    await draw(spectra, 'kept');
    await host.page.mouse.move(...(await at(0.6)), { steps: 2 });
    await host.page.mouse.up();
    await until(async () => (await menu()).includes('Zoom in'));
    const [from, to] = ((await host.page.locator('.washboard-about').textContent()) ?? '')
      .match(/[\d.]+/g)!
      .map(Number);
    const whole =
      Number(await hair().getAttribute('aria-valuemax')) - Number(await hair().getAttribute('aria-valuemin'));
    assert.ok(Math.abs((to - from) / whole - 0.4) < 0.02, `${from} to ${to} of ${whole}`);
    await draw(spectra, 'kept');
    await until(async () => (await menu()).includes('Keep this range cell 4'));
    // A button that was let go elsewhere chooses nothing further.
    await host.page.keyboard.press('Escape');
    await host.page.mouse.move(...(await at(0.8)));
    assert.equal((await menu()).length, 0);
  });
});
