import { strict as assert } from 'node:assert';
import { withPalette } from '../../src/charts/palettes.ts';
import { heatColours, seriesColours, themes } from '../../src/charts/theme.ts';
import { contrast, difference, eyes, lab, linear } from './colourVision.ts';

const grounds = {
  light: '#f3f3f3',
  dark: '#282c34',
  'high-contrast': '#000000',
  'high-contrast-light': '#ffffff',
  print: '#ffffff',
};

/** The least difference (CIEDE2000) between two of these colours to any kind of eye. */
const nearest = (colours: readonly string[]): number =>
  Math.min(
    ...Object.values(eyes).flatMap((matrix) => {
      const seen = colours.map((colour) => lab(linear(colour), matrix));
      return seen.flatMap((one, index) => seen.slice(0, index).map((other) => difference(one, other)));
    }),
  );

describe('the palettes beside those of the themes', () => {
  for (const own of Object.values(themes)) {
    it(`${own.name}: stand out from the ground, and have as many colours`, () => {
      for (const palette of ['second', 'grey']) {
        const { series, heat, lower, higher, equivalent, unclear } = withPalette(own, palette);
        assert.deepEqual([series.length, heat.length], [seriesColours, heatColours]);
        for (const colour of [...series, lower, higher, equivalent, unclear])
          assert.ok(
            contrast(colour, grounds[own.name]) >= (own.name.startsWith('high-contrast') ? 4.5 : 3),
            `${palette}: ${colour}`,
          );
      }
    });

    it(`${own.name}: the second is told apart by every kind of eye, series and outcomes`, () => {
      const { series, lower, higher, equivalent, unclear } = withPalette(own, 'second');
      assert.ok(nearest(series) >= 12, String(nearest(series)));
      assert.ok(nearest(series.slice(0, 2)) >= 25);
      assert.ok(
        nearest([lower, higher, equivalent, unclear]) >= 12,
        String(nearest([lower, higher, equivalent, unclear])),
      );
    });

    it(`${own.name}: grey has no hue, and lower and higher far apart`, () => {
      const { series, heat, lower, higher, equivalent, unclear } = withPalette(own, 'grey');
      for (const colour of [...series, ...heat, lower, higher, equivalent, unclear])
        assert.match(colour, /^#(..)\1\1$/);
      assert.ok(nearest(series.slice(0, 3)) >= 12, String(nearest(series.slice(0, 3))));
      assert.ok(nearest([lower, higher]) >= 25);
      assert.ok(
        nearest([lower, higher, equivalent, unclear]) >= 8,
        String(nearest([lower, higher, equivalent, unclear])),
      );
    });
  }

  it('leave a theme as it is where none is asked for, or one that is not known', () => {
    assert.equal(withPalette(themes.light, undefined), themes.light);
    assert.equal(withPalette(themes.light, 'of another version'), themes.light);
  });
});
