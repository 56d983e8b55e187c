import { strict as assert } from 'node:assert';
import { MemoryHost } from '../engine/memoryFiles.ts';
import { difference, sizes, SmallHost, statements, withGap } from './longHost.ts';

const sets = ['a', 'b', 'c', 'd'].map((set, s) =>
  Object.fromEntries([1, 2, 3].map((run) => [`${set}-${run}.csv`, withGap(10 * (s + 1) + run)])),
);
const contents: Record<string, string> = Object.assign({}, ...sets);
const loads = ['a', 'b', 'c', 'd'].map((set) => `${set} = load "${set}-*.csv"`);

async function differenceOf(cells: readonly string[]): Promise<number> {
  const whole = await statements(new MemoryHost(contents), [...loads, ...cells]);
  const parts = await statements(new SmallHost(sizes, contents), [...loads, ...cells]);
  assert.equal(/"error":(\{.*)/.exec(JSON.stringify(whole))?.[1], undefined);
  return difference(whole, parts, cells.join('; '));
}

describe('recordings that are too large for memory', () => {
  it('are compared to the last digit as the whole is, by their bands, axes and levels, with all that is told of them', async () => {
    for (const cells of [
      ['compare a with b over 2..10 Hz, 10..80 Hz axes x, z'],
      ['compare (a | channel z) with (b | channel z), (c | channel z) primary 10..80 Hz all-pairs'],
      ['compare (spectrum a using window hann 1 s) with (spectrum b using window hann 1 s) axes y'],
      ['compare (a | channel z) with (b | channel z) metric vdv'],
      ['compare a with b metric p99 axes x, y'],
      ['compare a with b metric p99_9 axes z'],
    ])
      assert.equal(await differenceOf(cells), 0, cells.join());
  });

  it('stand beside those that fit, in another unit, as a reference and as the logger at rest', async () => {
    for (const cells of [
      ['compare (a | channel z) with (b | channel z | trim 5..12 s) over 10..80 Hz'],
      ['compare ((a | channel z) in mm/s^2) with (b | channel z) over 10..80 Hz reference (c | channel z)'],
      ['compare (a | channel z) with (b | channel z) over 10..80 Hz above c'],
      ['compare (a | channel z) with (b | channel z) metric vdv above (spectrum c)'],
      ['compare (a | channel z | trim 5..12 s) with (b | channel z | trim 5..12 s) over 10..80 Hz above c'],
    ])
      assert.equal(await differenceOf(cells), 0, cells.join());
  });

  it('bear claims, of bands that were compared and of others, and pools of studies', async () => {
    const studies = [
      'one = compare (a | channel z) with (b | channel z) over 10..80 Hz',
      'two = compare (c | channel z) with (d | channel z) over 10..80 Hz',
    ];
    for (const cell of ['claim one reduction', 'claim one no-worse 20 % over 2..10 Hz', 'pool one, two', 'methods one'])
      assert.equal(await differenceOf([...studies, cell]), 0, cell);
  });

  it('are refused by a metric that is a weighting, which filters all samples at once', async () => {
    for (const cell of ['compare (a | channel z) with (b | channel z) metric wk', 'transfer a from x to z']) {
      const found = JSON.stringify(await statements(new SmallHost(sizes, contents), [...loads, cell]));
      const verb = cell.startsWith('transfer') ? 'transfer' : 'compare metric wk';
      assert.match(found, new RegExp(`is too large for memory, and ${verb} needs all of its samples at once: trim it`));
    }
  });
});
