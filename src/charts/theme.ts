import { printFont } from './printFont.ts';

/**
 * How a chart looks, apart from what it says. A compiled chart names its colours by role, each role a signal of the
 * Vega specification; a theme is one value for every role. The editor's renderer, the report and the figures
 * each fill in a theme of their own, and a renderer may change it later without compiling or drawing anew.
 */
export interface Theme {
  readonly name: ThemeName;
  readonly font: string;
  readonly background: string;
  /** Text and axis lines. */
  readonly ink: string;
  /** Secondary text: subtitles, notes. */
  readonly muted: string;
  readonly grid: string;
  /** Shading of frequency bands, and of every second band, behind the curves. */
  readonly shade: string;
  readonly shadeAlternate: string;
  /** Recording outside the stretch in use. */
  readonly faded: string;
  /** Series in order of appearance. They differ in hue and in lightness, and every user adds dash or shape. */
  readonly series: readonly string[];
  readonly lower: string;
  readonly higher: string;
  readonly equivalent: string;
  readonly unclear: string;
  /** Width of a strong line in px. */
  readonly strong: number;
  /** Opacity of a single run's thin line and of a confidence band. */
  readonly thin: number;
  readonly band: number;
  /** Low to high, for level over time and frequency. */
  readonly heat: readonly string[];
}

export type ThemeName = 'light' | 'dark' | 'high-contrast' | 'high-contrast-light' | 'print';

/** How many series have a colour of their own; the next ones begin again and differ by dash. */
export const seriesColours = 6;

const font = 'system-ui, "Segoe UI", "Helvetica Neue", "DejaVu Sans", sans-serif';

/** Steps of the colour map between which it is blended. */
export const heatColours = 7;

// Colours of nearly even steps of lightness from dark violet to pale yellow, so that a grey print keeps the order.
export const heatOnLight = ['#fbf7d9', '#f6d27c', '#ef9a4b', '#d95a49', '#a52c60', '#651a6b', '#25124f'];
export const heatOnDark = [...heatOnLight].reverse();

const darkSeries = ['#7cb8dd', '#fd8c4b', '#44f2c2', '#a579ff', '#fced74', '#e6e4f9'];

export const themes: Readonly<Record<ThemeName, Theme>> = {
  light: {
    name: 'light',
    font,
    background: '#ffffff',
    ink: '#2b2b2b',
    muted: '#5f5f5f',
    grid: '#e4e4e4',
    shade: '#eef1f6',
    shadeAlternate: '#e3e8f1',
    faded: '#9a9a9a',
    series: ['#0051d1', '#bd6200', '#1b907f', '#4c0f5f', '#6b4a00', '#213c34'],
    lower: '#0051d1',
    higher: '#bd6200',
    equivalent: '#1b907f',
    unclear: '#3d3d3d',
    strong: 2,
    thin: 0.45,
    band: 0.2,
    heat: heatOnLight,
  },
  dark: {
    name: 'dark',
    font,
    background: '#1f1f1f',
    ink: '#e0e0e0',
    muted: '#a6a6a6',
    grid: '#3a3a3a',
    shade: '#2b3038',
    shadeAlternate: '#343b46',
    faded: '#7a7a7a',
    series: darkSeries,
    lower: '#7cb8dd',
    higher: '#fd8c4b',
    equivalent: '#44f2c2',
    unclear: '#979797',
    strong: 2,
    thin: 0.5,
    band: 0.22,
    heat: heatOnDark,
  },
  'high-contrast': {
    name: 'high-contrast',
    font,
    background: '#000000',
    ink: '#ffffff',
    muted: '#ffffff',
    grid: '#4d4d4d',
    shade: '#1e2a3a',
    shadeAlternate: '#2b3b52',
    faded: '#a0a0a0',
    series: darkSeries,
    lower: '#7cb8dd',
    higher: '#fd8c4b',
    equivalent: '#44f2c2',
    unclear: '#a0a0a0',
    strong: 2.6,
    thin: 0.75,
    band: 0.3,
    heat: heatOnDark,
  },
  'high-contrast-light': {
    name: 'high-contrast-light',
    font,
    background: '#ffffff',
    ink: '#000000',
    muted: '#1f1f1f',
    grid: '#c4c4c4',
    shade: '#e3e9f5',
    shadeAlternate: '#d0daee',
    faded: '#6e6e6e',
    series: ['#002adb', '#9e6b0b', '#1b8370', '#2b0052', '#573404', '#001814'],
    lower: '#002adb',
    higher: '#9e6b0b',
    equivalent: '#1b8370',
    unclear: '#1f1f1f',
    strong: 2.6,
    thin: 0.7,
    band: 0.25,
    heat: heatOnLight,
  },
  // Lines of 1 pt. The first series are far apart in lightness, so that grey alone tells them apart.
  print: {
    name: 'print',
    font: `${printFont}, Arial, Helvetica, sans-serif`,
    background: '#ffffff',
    ink: '#000000',
    muted: '#404040',
    grid: '#d9d9d9',
    shade: '#f5f5f5',
    shadeAlternate: '#eeeeee',
    faded: '#8c8c8c',
    series: ['#0046b8', '#d9780a', '#086e60', '#681963', '#764f00', '#25392a'],
    lower: '#0046b8',
    higher: '#d9780a',
    equivalent: '#1b907f',
    unclear: '#3d3d3d',
    strong: 1.47,
    thin: 0.28,
    band: 0.2,
    heat: heatOnLight,
  },
};

/** Value of every role's signal under a theme. */
export function roleSignals(theme: Theme): Record<string, string | number> {
  const signals: Record<string, string | number> = {
    role_background: theme.background,
    role_ink: theme.ink,
    role_muted: theme.muted,
    role_grid: theme.grid,
    role_shade: theme.shade,
    role_shade_alternate: theme.shadeAlternate,
    role_faded: theme.faded,
    role_lower: theme.lower,
    role_higher: theme.higher,
    role_equivalent: theme.equivalent,
    role_unclear: theme.unclear,
    role_strong: theme.strong,
    role_thin: theme.thin,
    role_band: theme.band,
  };
  theme.series.slice(0, seriesColours).forEach((colour, index) => (signals[`role_series${index + 1}`] = colour));
  theme.heat.slice(0, heatColours).forEach((colour, index) => (signals[`role_heat${index + 1}`] = colour));
  return signals;
}

type Json = Readonly<Record<string, unknown>>;

const textStyles = ['guide-label', 'guide-title', 'group-title', 'group-subtitle'];

/** The same specification with its roles filled in from a theme, and its font. */
export function withTheme(vega: Json, theme: Theme): Record<string, unknown> {
  const values = roleSignals(theme);
  const signals = ((vega['signals'] ?? []) as readonly { name: string }[]).map((signal) =>
    signal.name in values ? { ...signal, value: values[signal.name] } : signal,
  );
  const config = (vega['config'] ?? {}) as Json;
  const style = (config['style'] ?? {}) as Readonly<Record<string, Json>>;
  const styles = Object.fromEntries(textStyles.map((name) => [name, { ...style[name], font: theme.font }]));
  const text = { ...(config['text'] as Json | undefined), font: theme.font };
  return { ...vega, signals, config: { ...config, style: { ...style, ...styles }, text } };
}
