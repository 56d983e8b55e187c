import { themes, type Theme, type ThemeName } from '../charts/theme.ts';

/** Our themes, fitted to the colours of the editor's own. */

export type Rgb = readonly [number, number, number];

/** `#rgb`, `#rrggbb` (with or without alpha) and `rgb()` as the browser computes them; undefined for anything else. */
export function parseColour(text: string): Rgb | undefined {
  const hex = /^#([0-9a-f]{3,8})$/i.exec(text.trim())?.[1];
  if (hex !== undefined) {
    const digits =
      hex.length < 6 ? [...hex.slice(0, 3)].map((digit) => digit + digit) : (hex.match(/../g) ?? []).slice(0, 3);
    return digits.length === 3 ? toRgb(digits.map((pair) => parseInt(pair, 16))) : undefined;
  }
  const numbers = /^rgba?\(([^)]*)\)$/i
    .exec(text.trim())?.[1]
    ?.split(/[\s,/]+/)
    .map(Number);
  return numbers === undefined || numbers.slice(0, 3).some((part) => !Number.isFinite(part))
    ? undefined
    : toRgb(numbers);
}

const toRgb = (parts: readonly number[]): Rgb => [parts[0], parts[1], parts[2]];

/** Relative luminance (WCAG 2.2). */
function luminance(colour: Rgb): number {
  const [red, green, blue] = colour.map((part) => {
    const fraction = part / 255;
    return fraction <= 0.04045 ? fraction / 12.92 : ((fraction + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** Contrast ratio (WCAG 2.2), 1 to 21. */
export function contrast(a: Rgb, b: Rgb): number {
  const [dark, light] = [luminance(a), luminance(b)].sort((first, second) => first - second);
  return (light + 0.05) / (dark + 0.05);
}

const mixed = (from: Rgb, to: Rgb, share: number): string =>
  `#${from
    .map((part, index) =>
      Math.round(part + (to[index] - part) * share)
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;

const hexOf = (colour: Rgb): string => mixed(colour, colour, 0);

export interface EditorColours {
  readonly name: ThemeName;
  readonly background: string;
  readonly foreground: string;
  readonly secondary: string;
  readonly font: string;
}

/**
 * The theme for an editor: its background and text, and the palette that stands out from that background. A text
 * colour that could not be read (contrast below 4.5) is replaced by ours.
 */
export function fittedTheme(editor: EditorColours): Theme {
  const background = parseColour(editor.background);
  if (background === undefined) return themes[editor.name];
  const base = themes[paletteFor(editor.name, background)];
  const readable = (text: string, ours: string): string => {
    const colour = parseColour(text);
    return colour !== undefined && contrast(colour, background) >= 4.5 ? hexOf(colour) : ours;
  };
  const ink = readable(editor.foreground, base.ink);
  const inkRgb = parseColour(ink) ?? [128, 128, 128];
  const first = parseColour(base.series[0]) ?? inkRgb;
  const strong = base.name.startsWith('high-contrast') ? 1.6 : 1;
  return {
    ...base,
    font: editor.font === '' ? base.font : editor.font,
    background: hexOf(background),
    ink,
    muted: readable(editor.secondary, base.muted),
    grid: mixed(background, inkRgb, 0.12 * strong),
    shade: mixed(background, first, 0.08 * strong),
    shadeAlternate: mixed(background, first, 0.15 * strong),
    faded: mixed(background, inkRgb, 0.45),
  };
}

/** A light palette on a dark ground would be lost, whatever the theme calls itself. */
function paletteFor(name: ThemeName, background: Rgb): ThemeName {
  const light = luminance(background) > 0.18;
  if (name.startsWith('high-contrast')) return light ? 'high-contrast-light' : 'high-contrast';
  return light ? 'light' : 'dark';
}
