import { strict as assert } from 'node:assert';
import { Engine } from '../../src/engine/engine.ts';
import { show } from '../../src/engine/show.ts';
import type { Display } from '../../src/charts/display.ts';
import type { TablePart } from '../../src/charts/output.ts';
import { MemoryHost, quietWatch, recording } from './memoryFiles.ts';

describe('what is shown of a statement that failed', () => {
  const cells = ['# The springs\na = 1 m\nb = 3 N + a', '# Used\nb * 2'];
  const host = new MemoryHost({});
  const engine = new Engine(host);

  /** The messages of the last statement, with the cells counted so. */
  async function messages(numbers?: readonly number[]) {
    const request = { cells, wanted: 'all' as const, ...(numbers === undefined ? {} : { numbers }) };
    const { results } = await engine.run(request, quietWatch);
    return results.map((result) => show(result)?.messages ?? []);
  }

  it('says where, with the cell as the reader counts it and its remark', async () => {
    for (const [numbers, at] of [
      [undefined, 1],
      [[2, 4], 2],
      [[3, 5], 3],
    ] as const) {
      const [, [failed]] = await messages(numbers);
      assert.match(failed.where ?? '', new RegExp(`^cell ${at}, The springs, line 3, columns? `));
    }
  });

  it('leads from a name without a value to the statement that failed', async () => {
    const [last] = (await messages([2, 4])).at(-1)!;
    assert.match(last.message, /because its own statement failed: see cell 2, The springs, line 3\.$/);
  });
});

describe('what is shown of a fault that several runs have', () => {
  const clipped = (seed: number): string =>
    recording({ seed }).replace(/[^,\n]+$/gm, (last) => (Number(last) > 1.1 ? '1.1' : last));
  const files = { 'a1.csv': clipped(1), 'a2.csv': clipped(2), 'a3.csv': clipped(3) };

  it('is a line of the text, with all in the messages', async () => {
    for (const cell of ['a = load "*.csv"', 'load "*.csv" | channel z', 'check (load "*.csv")']) {
      const { results } = await new Engine(new MemoryHost(files)).run({ cells: [cell], wanted: 'all' }, quietWatch);
      const { text, messages } = show(results[0]) ?? assert.fail('nothing is shown');
      assert.equal(messages.filter(({ code }) => code === 'clipped').length, 3, cell);
      const lines = text.split('\n').filter((line) => line.startsWith('warning clipped: '));
      assert.equal(lines.length, 1, cell);
      assert.match(
        lines[0],
        /^warning clipped: a1: z is clipped: .* Much the same goes for a2 and a3 \([\d.]+ %.*\)\.$/,
      );
    }
  });
});

describe('what is shown of a fault that very many runs have', () => {
  it('is one message, of 20 runs at most one each', async () => {
    const { results } = await new Engine(new MemoryHost({ 'a.csv': recording({ seed: 1 }) })).run(
      { cells: ['load "a.csv"'], wanted: 'all' },
      quietWatch,
    );
    const shownOf = (count: number): readonly string[] => {
      const warnings = Array.from({ length: count }, (_, k) => ({
        ...{ code: 'clipped', facts: { channel: 'z', share: 0.01 }, message: `r${k}: z is clipped.` },
        concerns: { run: `r${k}` },
      }));
      const output = show({ ...results[0], warnings }) ?? assert.fail('nothing is shown');
      return output.messages.map(({ message }) => message);
    };
    assert.equal(shownOf(20).length, 20);
    assert.deepEqual(shownOf(1000), [
      'r0: z is clipped. Much the same goes for r1, r2, r3, r4, r5, r6, r7 and 992 more (1 %).',
    ]);
  });
});

describe('what is shown as the reader wants it', () => {
  const files = { 'a.csv': recording({ seed: 1 }), 'b.csv': recording({ seed: 2 }) };
  const cells = [
    'r = load "*.csv" channel z',
    'levels r',
    'spectrum r',
    'levels r in g',
    'top = 2 g',
    '3 m/s',
    'levels r',
  ];
  const engine = new Engine(new MemoryHost(files));

  async function shownWith(display?: Display) {
    const { results } = await engine.run({ cells, wanted: 'all' }, quietWatch);
    return results.map((result) => show(result, display)!);
  }
  const tableOf = ({ parts }: { parts: readonly { type: string }[] }): TablePart =>
    parts.find((part): part is TablePart => part.type === 'table')!;
  const figureIn = (table: TablePart, column: string): { text: string; unit: string } => {
    const at = table.columns.findIndex(({ name }) => name === column);
    return { text: table.rows[0][at], unit: table.columns[at].unit };
  };

  it('has accelerations and their densities in the unit asked for, but where a statement asks itself', async () => {
    const own = await shownWith();
    const other = await shownWith({ acceleration: 'm/s^2' });
    const [before, after] = [own, other].map((all) => figureIn(tableOf(all[1]), 'R.m.s.'));
    assert.equal(before.unit, 'g');
    assert.equal(after.unit, 'm/s^2');
    assert.ok(Math.abs(Number(after.text) / Number(before.text) / 9.80665 - 1) < 2e-3, after.text);
    assert.equal(figureIn(tableOf(other[2]), 'Highest').unit, '(m/s^2)^2/Hz');
    assert.deepEqual(other[3], own[3]);
    assert.match(other[4].text, /19\.61 m\/s²/);
    assert.deepEqual(other[5], own[5]);
  });

  it('has as many digits as are asked for', async () => {
    const [few, many] = [await shownWith({ digits: 3 }), await shownWith({ digits: 7 })].map(
      (all) => figureIn(tableOf(all[1]), 'R.m.s.').text,
    );
    assert.match(few, /^0\.0*[1-9]\d{2}$/);
    assert.match(many, /^0\.0*[1-9]\d{6}$/);
  });

  it('names the palette for who draws it, and nothing where there is none', async () => {
    const [, levels] = await shownWith({ palette: 'grey' });
    assert.equal(levels.palette, 'grey');
    assert.ok(!('palette' in (await shownWith({}))[1]));
  });
});
