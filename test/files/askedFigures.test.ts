import { strict as assert } from 'node:assert';
import { askedFigures } from '../../src/files/askedFigures.ts';
import { usualSettings } from '../../src/files/figureSettings.ts';
import { frontMatter } from '../../src/notebook/frontMatter.ts';

const asked = (head: string, ...said: readonly (readonly [string, string])[]): ReturnType<typeof askedFigures> =>
  askedFigures(frontMatter(`---\n${head}\n---\n# Study\n`).entries, said);

const refusal = (...given: Parameters<typeof asked>): string => {
  const found = asked(...given);
  return found.ok ? assert.fail('it was taken') : found.failure.message;
};

describe('what is asked for of figures', () => {
  it('stands in the front matter, for all and for one by its name, and the command line wins', () => {
    const head =
      'title: A ride\nfigures: width 85 mm, format pdf png, title off\nfigure bricks-change: width 170 mm, size 8 pt';
    const found = asked(head, ['format', 'svg']);
    assert.ok(found.ok);
    const { settingsFor, holdTo } = found.value;
    assert.deepEqual(settingsFor('S-spectrum'), { ...usualSettings, width: 85, title: false });
    assert.deepEqual(settingsFor('bricks-change'), { ...usualSettings, width: 170, size: 8, title: false });
    assert.ok(holdTo(['bricks-change']).ok);
    const missing = holdTo(['S-spectrum']);
    assert.ok(!missing.ok);
    assert.match(missing.failure.message, /^line 4 has settings for the figure bricks-change, and there is none/);
  });

  it('is refused in a sentence where it can’t be', () => {
    assert.match(refusal('figures: with 85 mm'), /no setting "with"; there is width, format, dpi/);
    assert.match(refusal('figures: width 20 mm'), /60 to 400 mm, as in 85 mm, and not "20 mm"/);
    assert.match(refusal('figures: format pdf gif'), /svg, pdf and png, not as "gif"/);
    assert.match(refusal('', ['size', '5pt']), /6 to 14 pt, as in 8 pt, and not "5pt"/);
    assert.match(refusal('', ['dpi', '0']), /72 to 2400/);
    assert.match(refusal('', ['theme', 'high-contrast']), /print, light or dark/);
    assert.match(refusal('', ['title', 'no']), /on or off/);
    assert.match(refusal('', ['constructor', 'x']), /no setting "constructor"/);
  });

  it('takes centimetres, and what stands close together', () => {
    for (const [width, wanted] of [
      ['8.5cm', 85],
      ['85mm', 85],
      ['85', 85],
    ] as const) {
      const found = asked('', ['width', width]);
      assert.equal(found.ok && found.value.settingsFor('x').width, wanted);
    }
  });
});
