import { heatOnDark, heatOnLight, type Theme, type ThemeName } from './theme.ts';

/** Choices of colours beside a theme's own. */
export type PaletteName = 'second' | 'grey';

type Colours = Pick<Theme, 'series' | 'lower' | 'higher' | 'equivalent' | 'unclear' | 'heat'>;

const greyHeat = ['#f7f7f7', '#d6d6d6', '#b4b4b4', '#919191', '#6c6c6c', '#464646', '#202020'];

const secondOnDark: Colours = {
  series: ['#d28581', '#7f7cbb', '#e5be2e', '#aadfdb', '#f5f0c8', '#e79bff'],
  lower: '#aadfdb',
  higher: '#e5be2e',
  equivalent: '#e79bff',
  unclear: '#979797',
  heat: heatOnDark,
};

const greyOnDark: Colours = {
  series: ['#ffffff', '#8f8f8f', '#c8c8c8', '#a8a8a8', '#e4e4e4', '#7f7f7f'],
  lower: '#ffffff',
  higher: '#7f7f7f',
  equivalent: '#cdcdcd',
  unclear: '#a5a5a5',
  heat: [...greyHeat].reverse(),
};

const greyOnLight: Colours = {
  series: ['#000000', '#808080', '#4a4a4a', '#6a6a6a', '#2b2b2b', '#858585'],
  lower: '#000000',
  higher: '#858585',
  equivalent: '#424242',
  unclear: '#636363',
  heat: greyHeat,
};

const secondOnLight: Colours = {
  series: ['#661684', '#00855a', '#c46a00', '#001ee6', '#4a3200', '#7d6e93'],
  lower: '#661684',
  higher: '#c46a00',
  equivalent: '#00855a',
  unclear: '#3d3d3d',
  heat: heatOnLight,
};

/**
 * By palette and theme. The second holds what the theme's own do: any two series can be told apart by every kind of eye. In
 * grey they differ in lightness as far as six can that stand out from the ground; dashes and shapes do the rest.
 */
const palettes: Readonly<Record<PaletteName, Readonly<Record<ThemeName, Colours>>>> = {
  second: {
    light: secondOnLight,
    print: secondOnLight,
    dark: secondOnDark,
    'high-contrast': secondOnDark,
    'high-contrast-light': {
      series: ['#690752', '#28864e', '#ae5000', '#0108c2', '#3a2600', '#646e9b'],
      lower: '#0108c2',
      higher: '#ae5000',
      equivalent: '#28864e',
      unclear: '#1f1f1f',
      heat: heatOnLight,
    },
  },
  grey: {
    light: greyOnLight,
    print: greyOnLight,
    dark: greyOnDark,
    'high-contrast': greyOnDark,
    'high-contrast-light': {
      ...greyOnLight,
      series: ['#000000', '#727272', '#3c3c3c', '#585858', '#202020', '#6a6a6a'],
      higher: '#737373',
      equivalent: '#3a3a3a',
      unclear: '#565656',
    },
  },
};

/** A theme in the colours of a palette; as it is without one, or with one that this version does not know. */
export function withPalette(theme: Theme, name: string | undefined): Theme {
  const palette = name === undefined ? undefined : palettes[name as PaletteName];
  return palette === undefined ? theme : { ...theme, ...palette[theme.name] };
}
