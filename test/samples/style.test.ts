import { strict as assert } from 'node:assert';
import { present } from '../../src/charts/present.ts';
import type { Part } from '../../src/charts/output.ts';
import { run } from './notebooks.ts';

/** Everything of an output that people read: texts, titles, captions, tables, and the words of pictures. */
function wordsOf(part: Part): readonly string[] {
  switch (part.type) {
    case 'text':
      return [part.text];
    case 'table':
      return [
        part.caption ?? '',
        ...part.columns.map(({ name, unit }) => (unit === '' ? name : `${name} (${unit})`)),
        ...part.rows.flat(),
      ];
    case 'chart':
      return [part.title, part.subtitle, part.description];
  }
}

/** Figures with a decimal point that have more than five digits which count. */
const longFigures = (text: string): string[] =>
  (text.match(/(?<![\w.])\d+\.\d+(?![\w.])/g) ?? []).filter(
    (figure) => figure.replace('.', '').replace(/^0+/, '').length > 5,
  );

const faults: Readonly<Record<string, (text: string) => readonly string[]>> = {
  'a square of a unit in brackets': (text) => text.match(/\((?:m?g|counts)\)²/g) ?? [],
  'r.m.s. in another spelling': (text) => text.match(/\b(?:rms|RMS|Rms|R\.M\.S\.)(?![\w-])/g) ?? [],
  'words of what nobody measured': (text) => text.match(/\b(?:felt|smoother|vibrates?|proved|no difference)\b/g) ?? [],
  'another word for an outcome': (text) => text.match(/\b(?:unclear|equivalent|significant|insignificant)\b/gi) ?? [],
  'a hyphen for a minus': (text) => text.match(/(?<![\w\d:.-])-\d+(?:\.\d+)?(?![\w-])/g) ?? [],
  'a figure that is none': (text) => text.match(/\b(?:NaN|Infinity|undefined|null)\b/g) ?? [],
  'digits beyond what they mean': longFigures,
  'a bracket within a bracket': (text) => text.match(/\([^()]*\((?!SHA)[^()]*\)\)/g) ?? [],
};

describe('what the samples print', () => {
  const wordsIn = async (notebook: string): Promise<readonly string[]> => {
    const { results } = await run(notebook);
    return results.flatMap(({ value, name, warnings }) => [
      ...(value === undefined ? [] : present(value, name, []).parts.flatMap(wordsOf)),
      ...warnings.map(({ message }) => message),
    ]);
  };

  for (const notebook of ['springs.washboard.md', 'seat-pad.washboard.md', 'three-pads.washboard.md'])
    it(`is of one style: ${notebook}`, async () => {
      const words = await wordsIn(notebook);
      assert.ok(words.length > 10);
      for (const [what, of] of Object.entries(faults)) {
        const found = words.flatMap((text) => of(text).map((fault) => `${fault} in: ${text.slice(0, 200)}`));
        assert.deepEqual(found, [], what);
      }
    }).timeout(120_000);

  it('would be told from another style', () => {
    const worst = 'The rms of -3.5 (mg)²/Hz (95 % (of all)) was felt 8.02066 NaN, equivalent';
    for (const [what, of] of Object.entries(faults)) assert.equal(of(worst).length, 1, what);
  });
});
