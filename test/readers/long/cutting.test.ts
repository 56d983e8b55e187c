import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { Cutting } from '../../../src/readers/long/cutting.ts';
import { piecesOf } from '../../../src/readers/pieces.ts';
import { source } from '../memory.ts';

describe('Cutting', () => {
  it('cuts bytes into parts that end at line ends and are together all there is, whatever the pieces', async () => {
    const lines = fc.array(fc.string({ maxLength: 30, unit: fc.constantFrom('a', 'b', ',') }), {
      minLength: 1,
      maxLength: 80,
    });
    await fc.assert(
      fc.asyncProperty(
        lines,
        fc.integer({ min: 1, max: 200 }),
        fc.integer({ min: 1, max: 90 }),
        async (given, size, piece) => {
          const content = given.map((line) => `${line}\n`).join('');
          const file = source(content);
          const read = file.read;
          const pieces = piecesOf({ ...file, read: (at, length) => read(at, Math.min(length, piece)) });
          const cutting = new Cutting(
            pieces,
            { from: 0, to: content.length },
            (bytes) => bytes.lastIndexOf(10) + 1,
            size,
          );
          let together = '';
          for (let part = cutting.next(); part; part = cutting.next()) {
            assert.equal(part.from, together.length);
            let own = '';
            for (let bytes = await part.pieces.next(); bytes; bytes = await part.pieces.next())
              own += new TextDecoder().decode(bytes);
            assert.ok(own.endsWith('\n') && (own.length > size - 32 || cutting.at === content.length));
            together += own;
            assert.equal(cutting.at, together.length);
          }
          assert.equal(together, content);
        },
      ),
    );
  });
});
