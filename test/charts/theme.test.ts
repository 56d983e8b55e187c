import { strict as assert } from 'node:assert';
import { heatColours, roleSignals, seriesColours, themes, withTheme, type Theme } from '../../src/charts/theme.ts';
import { contrast, difference, eyes, lab, linear } from './colourVision.ts';

/** Backgrounds of common editor themes beside our own. */
const grounds: Readonly<Record<string, readonly string[]>> = {
  light: ['#ffffff', '#f3f3f3', '#fdf6e3'],
  dark: ['#1f1f1f', '#1e1e1e', '#272822', '#282c34'],
  'high-contrast': ['#000000'],
  'high-contrast-light': ['#ffffff'],
  print: ['#ffffff'],
};

const named = Object.values(themes).map((theme): [string, Theme] => [theme.name, theme]);

describe('the measure of colours', () => {
  it('gives the published differences of CIEDE2000 (Sharma, Wu & Dalal 2005, table 1, pairs 1, 3 and 4)', () => {
    const cases: readonly [[number, number, number], [number, number, number], number][] = [
      [[50, 2.6772, -79.7751], [50, 0, -82.7485], 2.0425],
      [[50, 2.8361, -74.02], [50, 0, -82.7485], 3.4412],
      [[50, -1.3802, -84.2814], [50, 0, -82.7485], 1],
    ];
    for (const [first, second, expected] of cases) assert.ok(Math.abs(difference(first, second) - expected) < 5e-5);
  });

  it('gives 21 for black on white', () => assert.ok(Math.abs(contrast('#000000', '#ffffff') - 21) < 1e-4));
});

describe('the palettes', () => {
  for (const [name, theme] of named) {
    const strong = name.startsWith('high-contrast');

    it(`${name}: any two series differ by 12 or more to every kind of eye, the first two by 25`, () => {
      assert.equal(theme.series.length, seriesColours);
      for (const [eye, matrix] of Object.entries(eyes)) {
        const seen = theme.series.map((colour) => lab(linear(colour), matrix));
        seen.forEach((colour, index) =>
          seen.slice(0, index).forEach((other, before) => {
            const least = before === 0 && index === 1 ? 25 : 12;
            assert.ok(difference(colour, other) >= least, `${theme.series[before]} and ${theme.series[index]}, ${eye}`);
          }),
        );
      }
    });

    if (name === 'print')
      it('print: the first two series, and lower and higher, differ by 25 in lightness, so that grey tells them apart', () => {
        const light = (colour: string): number => lab(linear(colour), eyes['full colour vision'])[0];
        for (const [one, other] of [theme.series, [theme.lower, theme.higher]])
          assert.ok(Math.abs(light(one) - light(other)) >= 25, `${light(one)} and ${light(other)}`);
      });

    if (name === 'print')
      it('print: where two runs of a series cross they are lighter than the mean of any of the first three', () => {
        const light = ([r, g, b]: readonly number[]): number =>
          lab(
            linear(`#${[r, g, b].map((part) => Math.round(part).toString(16).padStart(2, '0')).join('')}`),
            eyes['full colour vision'],
          )[0];
        const parts = (colour: string): number[] => [1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16));
        const three = theme.series.slice(0, 3).map(parts);
        const left = (1 - theme.thin) ** 2;
        const crossing = three.map((colour) => light(colour.map((part) => 255 * left + part * (1 - left))));
        assert.ok(Math.min(...crossing) > Math.max(...three.map(light)), crossing.join());
      });

    it(`${name}: outcomes can be told apart by every kind of eye`, () => {
      const colours = [theme.lower, theme.higher, theme.equivalent, theme.unclear];
      for (const [eye, matrix] of Object.entries(eyes)) {
        colours.forEach((colour, index) =>
          colours.slice(0, index).forEach((other) => {
            assert.ok(
              difference(lab(linear(colour), matrix), lab(linear(other), matrix)) >= 12,
              `${colour} and ${other}, ${eye}`,
            );
          }),
        );
      }
    });

    it(`${name}: lines have a contrast of ${strong ? 4.5 : 3} and text of ${strong ? 7 : 4.5} to the background`, () => {
      for (const ground of grounds[name]) {
        for (const colour of [...theme.series, theme.lower, theme.higher, theme.equivalent, theme.unclear]) {
          assert.ok(contrast(colour, ground) >= (strong ? 4.5 : 3), `${colour} on ${ground}`);
        }
        for (const colour of [theme.ink, theme.muted]) {
          assert.ok(contrast(colour, ground) >= (strong ? 7 : 4.5), `${colour} on ${ground}`);
        }
      }
    });

    it(`${name}: text stays readable on the shading of bands`, () => {
      for (const shade of [theme.shade, theme.shadeAlternate]) assert.ok(contrast(theme.ink, shade) >= 4.5);
      for (const colour of theme.series) {
        for (const shade of [theme.shade, theme.shadeAlternate])
          assert.ok(contrast(colour, shade) >= 2.7, `${colour} on ${shade}`);
      }
    });

    it(`${name}: the colour map runs in even steps of lightness, to every kind of eye in one direction`, () => {
      assert.equal(theme.heat.length, heatColours);
      for (const [eye, matrix] of Object.entries(eyes)) {
        const steps = theme.heat
          .map((colour) => lab(linear(colour), matrix)[0])
          .map((light, index, all) => light - (all[index - 1] ?? light))
          .slice(1);
        const direction = Math.sign(steps[0]);
        for (const step of steps)
          assert.ok(step * direction >= 6 && step * direction <= 26, `${eye}: a step of ${step.toFixed(1)}`);
      }
    });
  }
});

describe('withTheme', () => {
  const vega = {
    signals: [
      { name: 'role_ink', value: '#123456' },
      { name: 'chartWidth', value: 720 },
    ],
    config: { style: { 'guide-label': { fontSize: 9 } } },
  };

  it('fills in the roles and the font, and leaves the rest', () => {
    const themed = withTheme(vega, themes.dark);
    assert.deepEqual(themed['signals'], [
      { name: 'role_ink', value: themes.dark.ink },
      { name: 'chartWidth', value: 720 },
    ]);
    const style = (themed['config'] as { style: Record<string, object> }).style;
    assert.deepEqual(style['guide-label'], { fontSize: 9, font: themes.dark.font });
  });

  it('does not change what it is given', () => {
    const before = JSON.stringify(vega);
    withTheme(vega, themes.dark);
    assert.equal(JSON.stringify(vega), before);
  });

  it('has a value for every role in every theme', () => {
    const roles = Object.keys(roleSignals(themes.light));
    for (const theme of Object.values(themes)) {
      assert.deepEqual(Object.keys(roleSignals(theme)), roles);
      for (const value of Object.values(roleSignals(theme))) assert.ok(value !== undefined && value !== '');
    }
  });
});
