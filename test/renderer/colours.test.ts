import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { themes, type ThemeName } from '../../src/charts/theme.ts';
import { contrast, fittedTheme, parseColour } from '../../src/renderer/colours.ts';

const editor = { name: 'dark' as ThemeName, background: '#1f1f1f', foreground: '#cccccc', secondary: '', font: '' };
const hex = fc.integer({ min: 0, max: 0xffffff }).map((value) => `#${value.toString(16).padStart(6, '0')}`);

describe('parseColour', () => {
  it('reads what browsers and themes write', () => {
    assert.deepEqual(parseColour('#fff'), [255, 255, 255]);
    assert.deepEqual(parseColour(' #1F1f1fcc '), [31, 31, 31]);
    assert.deepEqual(parseColour('rgb(1, 2, 3)'), [1, 2, 3]);
    assert.deepEqual(parseColour('rgba(1 2 3 / 0.5)'), [1, 2, 3]);
    for (const other of ['', 'red', 'var(--x)', '#12', 'rgb(a, b, c)'])
      assert.equal(parseColour(other), undefined, other);
  });
});

describe('fittedTheme', () => {
  it('takes the editor’s background and text', () => {
    const theme = fittedTheme(editor);
    assert.equal(theme.background, '#1f1f1f');
    assert.equal(theme.ink, '#cccccc');
    assert.deepEqual(theme.series, themes.dark.series);
  });

  it('is ours where the editor tells nothing', () =>
    assert.deepEqual(fittedTheme({ ...editor, background: '' }), themes.dark));

  it('goes by the background, whatever the theme calls itself', () => {
    assert.deepEqual(fittedTheme({ ...editor, background: '#fdf6e3' }).series, themes.light.series);
    assert.equal(fittedTheme({ ...editor, name: 'high-contrast', background: '#ffffff' }).name, 'high-contrast-light');
  });

  it('never takes text that could not be read when ours can', () => {
    fc.assert(
      fc.property(hex, hex, (background, foreground) => {
        const theme = fittedTheme({ ...editor, background, foreground });
        const [ground, ink] = [parseColour(background), parseColour(theme.ink)];
        assert.ok(ground !== undefined && ink !== undefined);
        const ours = parseColour(themes[theme.name].ink);
        assert.ok(ours !== undefined && contrast(ink, ground) >= Math.min(4.5, contrast(ours, ground)) - 1e-9);
      }),
    );
  });
});
