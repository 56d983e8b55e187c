import { strict as assert } from 'node:assert';
import { checkNumber, withNumberCells, type AskedNumber, type NumberCheck } from '../../src/engine/proseNumbers.ts';
import { Engine } from '../../src/engine/engine.ts';
import { offersOf } from '../../src/engine/numberOffers.ts';
import { loadPads, pads, worked } from '../verbs/pads.ts';
import { MemoryHost } from './memoryFiles.ts';

const watch = { cancelled: () => false, progress: () => undefined };
const cells = ['k = 3.4567 N/mm\nlost = -0.04 mm\nratio = 12.345 %\nmany = 8'];

const asked = (text: string, unit: string, expression: string): AskedNumber => ({ text, unit, expression });

async function judge(text: string, unit: string, expression: string): Promise<NumberCheck> {
  const number = asked(text, unit, expression);
  const report = await new Engine(new MemoryHost({})).run(
    { cells: withNumberCells(cells, [number]), wanted: 'all' },
    watch,
  );
  return checkNumber(
    number,
    report.results.find(({ cell }) => cell === cells.length),
  );
}

const now = (found: NumberCheck): string => (found.state === 'differs' ? found.text : found.state);
const why = (found: NumberCheck): string => ('message' in found ? found.message.message : found.state);

describe('a number in prose', () => {
  it('agrees where the result, rounded to the digits written, is the same, whatever the minus sign', async () => {
    for (const [text, unit, expression] of [
      ['3.46', 'N/mm', 'k'],
      ['3457', 'N/m', 'k'],
      ['3.5', '', 'k'],
      ['−40', 'µm', 'lost'],
      ['-0.040', 'mm', 'lost'],
      ['0', 'mm', 'lost'],
      ['12.3', '%', 'ratio'],
      ['-12', '%', '-ratio'],
      ['3.457e3', 'N/m', 'k'],
      ['8', '', 'many'],
      ['6.9', 'N/mm', '2 * k'],
    ])
      assert.equal(now(await judge(text, unit, expression)), 'agrees', `${text} ${unit} = ${expression}`);
  });

  it('is to read as the result does, with its own decimals and signs', async () => {
    assert.equal(now(await judge('3.40', 'N/mm', 'k')), '3.46');
    assert.equal(now(await judge('+3', 'N/mm', 'k')), 'agrees');
    assert.equal(now(await judge('+2', 'N/mm', 'k')), '+3');
    assert.equal(now(await judge('0.05', 'mm', 'lost')), '−0.04');
    assert.equal(now(await judge('-0.05', 'mm', 'lost')), '-0.04');
    assert.equal(now(await judge('−1', 'mm', 'lost')), '0');
    assert.equal(why(await judge('12.0', '%', 'ratio')), 'The text says 12.0 %, and ratio is 12.3 %.');
  });

  it('tells what it can be held against, and binds no name', async () => {
    assert.match(why(await judge('', '', 'k')), /^No number stands before/);
    assert.match(why(await judge('1', '', 'kk')), /kk/);
    assert.match(why(await judge('1', 'runs', 'many')), /"runs" is no known unit/);
    assert.match(why(await judge('1', 'Hz', 'k')), /k is in N\/mm, which can't be written in Hz/);
    for (const expression of ['k = 5', 'x = 5', '', ') (', 'k)\nk = (5', '"text"'])
      assert.equal((await judge('1', '', expression)).state, 'wrong', expression);
    const number = asked('5', '', 'k = 5');
    const report = await new Engine(new MemoryHost({})).run(
      { cells: withNumberCells(cells, [number]), wanted: 'all' },
      watch,
    );
    assert.deepEqual(
      report.results.filter(({ cell, error }) => cell === 0 && error !== undefined),
      [],
    );
  });

  it('is not told of before its cells were run, and is told after that', async () => {
    const engine = new Engine(new MemoryHost(pads(worked)));
    const study = [`${loadPads}C = compare foam with gel over 10..30 Hz`];
    const numbers = [asked('−99.0', '%', 'C.change'), asked('1', '', 'nothing')];
    const before = await engine.recallNumbers(study, numbers, watch);
    assert.deepEqual(
      before.numbers.map(({ state }) => state),
      ['unknown', 'wrong'],
    );
    await engine.run({ cells: study, wanted: 'all' }, watch);
    const after = await engine.recallNumbers(study, numbers, watch);
    assert.equal(after.complete, true);
    assert.match(why(after.numbers[0]), /^The text says −99\.0 %, and C\.change is −1\d\.\d %\.$/);
    const offers = offersOf(after.values);
    const change = offers.find(({ expression }) => expression === 'C.change');
    assert.match(change?.text ?? '', /^−1\d\.\d %$/);
    const again = await engine.recallNumbers(
      study,
      offers.map(({ expression, text }) => {
        const [number, unit = ''] = text.split(' ');
        return asked(number, unit, expression);
      }),
      watch,
    );
    assert.deepEqual(
      again.numbers.filter(({ state }) => state !== 'agrees'),
      [],
      'what is offered agrees',
    );
  }).timeout(60_000);
});
