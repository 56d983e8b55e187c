import { themes, type ThemeName } from '../charts/theme.ts';
import { success, type Result } from '../result/result.ts';
import { refuse } from './messages.ts';

const figureFormats = ['svg', 'pdf', 'png'] as const;
export type FigureFormat = (typeof figureFormats)[number];

/** How a figure is to come out in print. */
export interface FigureSettings {
  /** mm */
  readonly width: number;
  readonly formats: readonly FigureFormat[];
  /** Dots per inch of a PNG. */
  readonly dpi: number;
  /** Name of a font family; of the one that is shipped unless said. */
  readonly font: string | undefined;
  /** Of the figures and names at the axes, in pt. */
  readonly size: number;
  /** Whether title and subtitle stand in the picture; otherwise they go into a text beside it. */
  readonly title: boolean;
  readonly theme: ThemeName;
}

export const usualSettings: FigureSettings = {
  width: 170,
  formats: ['svg'],
  dpi: 600,
  font: undefined,
  size: 7.5,
  title: true,
  theme: 'print',
};

/** What they may be set to. Type below 6 pt is not to be read in print; a narrower picture has no room for its names. */
const bounds = { width: [60, 400], size: [6, 14], dpi: [72, 2400] } as const;

const shownThemes = ['print', 'light', 'dark'] as const;

type Reader = (given: string) => Result<Partial<FigureSettings>>;

const within = (text: string, unit: string, [least, most]: readonly [number, number]): number | undefined => {
  const found = new RegExp(`^(\\d+(?:\\.\\d+)?)\\s*(?:${unit})?$`).exec(text.trim());
  const value = found === null ? NaN : Number(found[1]);
  return value >= least && value <= most ? value : undefined;
};

const readers: Readonly<Record<string, Reader>> = {
  width: (given) => {
    const [least, most] = bounds.width;
    const inCentimetres = /^\s*([\d.]+)\s*cm\s*$/.exec(given);
    const width = within(inCentimetres === null ? given : String(10 * Number(inCentimetres[1])), 'mm', bounds.width);
    return width === undefined ? refuse('figures.width', { given, least, most }) : success({ width });
  },
  format: (given) => {
    const formats: FigureFormat[] = [];
    for (const one of given.split(/[\s,]+/).filter((word) => word !== '')) {
      const format = figureFormats.find((known) => known === one);
      if (format === undefined) return refuse('figures.format', { given: one, known: figureFormats });
      if (!formats.includes(format)) formats.push(format);
    }
    return formats.length === 0 ? refuse('figures.format', { given, known: figureFormats }) : success({ formats });
  },
  dpi: (given) => {
    const dpi = within(given, 'dpi', bounds.dpi);
    return dpi === undefined ? refuse('figures.dpi', { given }) : success({ dpi });
  },
  size: (given) => {
    const [least, most] = bounds.size;
    const size = within(given, 'pt', bounds.size);
    return size === undefined ? refuse('figures.size', { given, least, most }) : success({ size });
  },
  font: (given) => success({ font: given.replace(/^"(.*)"$/, '$1') }),
  title: (given) =>
    given === 'on' || given === 'off' ? success({ title: given === 'on' }) : refuse('figures.title', { given }),
  theme: (given) => {
    const theme = shownThemes.find((known) => known === given);
    return theme === undefined
      ? refuse('figures.theme', { given, known: shownThemes })
      : success({ theme: themes[theme].name });
  },
};

/** Settings from what was said of each; the first that can't be taken is told. */
export function settingsOf(
  said: readonly (readonly [setting: string, given: string])[],
): Result<Partial<FigureSettings>> {
  let settings: Partial<FigureSettings> = {};
  for (const [setting, given] of said) {
    if (!Object.hasOwn(readers, setting)) return refuse('figures.setting', { setting, known: Object.keys(readers) });
    const read = readers[setting](given);
    if (!read.ok) return read;
    settings = { ...settings, ...read.value };
  }
  return success(settings);
}

/** `width 85 mm, format pdf png, title off`: a setting's name, then what it is. */
export const settingsIn = (text: string): Result<Partial<FigureSettings>> =>
  settingsOf(
    text
      .split(',')
      .map((part) => part.trim())
      .filter((part) => part !== '')
      .map((part): [string, string] => {
        const [setting] = part.split(/\s/);
        return [setting, part.slice(setting.length).trim()];
      }),
  );
