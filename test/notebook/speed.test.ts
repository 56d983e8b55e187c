import { strict as assert } from 'node:assert';
import { parseNotebook } from '../../src/notebook/parse.ts';
import { serializeNotebook } from '../../src/notebook/serialize.ts';

/** Texts that a reader with a loop too many takes minutes for. */
const hard: Readonly<Record<string, string>> = {
  '20,000 cells': '```washboard\nx = 1\n```\n\ntext\n\n'.repeat(20_000),
  '100,000 quote marks': '>'.repeat(100_000),
  '100,000 quote marks with blanks': '> '.repeat(100_000),
  '100,000 list marks': '- '.repeat(100_000),
  '50,000 fence openers': '```washboard\n'.repeat(50_000),
  '50,000 fence openers of two kinds': '```washboard\n~~~\n'.repeat(25_000),
  '200,000 blank lines': '\n'.repeat(200_000) + 'a',
  '100,000 pipes': '|'.repeat(100_000) + '\n' + '|-'.repeat(50_000),
  '150,000 lines of a cell': '```washboard\n' + 'x\n'.repeat(150_000) + '```\n',
};

describe('a notebook of whatever text', () => {
  for (const [name, text] of Object.entries(hard))
    it(`is read and written in a second of work each: ${name}`, () => {
      const bytes = new TextEncoder().encode(text);
      const before = process.cpuUsage();
      const read = parseNotebook(bytes);
      assert.ok(read.ok);
      const written = serializeNotebook(read.value);
      const { user } = process.cpuUsage(before);
      assert.ok(Buffer.from(written).equals(bytes), 'a byte was lost');
      assert.ok(user < 2e6, `${user / 1e6} s to read and to write`);
    });
});
