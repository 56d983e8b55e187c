import { messages } from '../result/messages.ts';
import { counted, listed } from '../result/words.ts';

interface Facts {
  'figures.setting': { setting: string; known: readonly string[] };
  'figures.width': { given: string; least: number; most: number };
  'figures.format': { given: string; known: readonly string[] };
  'figures.dpi': { given: string };
  'figures.size': { given: string; least: number; most: number };
  'figures.title': { given: string };
  'figures.theme': { given: string; known: readonly string[] };
  'figures.font': { font: string };
  'figures.font-file': { path: string };
  'figures.no-png': Record<string, never>;
  'figures.letters': { file: string; letters: readonly string[] };
  'figures.small': { file: string; points: string };
  'figures.unknown': { name: string; line: number; known: readonly string[] };
}

/** What is said of figures in print and of their settings. */
export const { tell, refuse } = messages<Facts>({
  'figures.setting': ({ setting, known }) => `figures have no setting "${setting}"; there is ${listed(known)}.`,
  'figures.width': ({ given, least, most }) =>
    `a figure's width is ${least} to ${most} mm, as in 85 mm, and not "${given}".`,
  'figures.format': ({ given, known }) => `figures are written as ${listed(known)}, not as "${given}".`,
  'figures.dpi': ({ given }) => `a figure has 72 to 2400 dots per inch, as in 600, and not "${given}".`,
  'figures.size': ({ given, least, most }) =>
    `the type of a figure is ${least} to ${most} pt, as in 8 pt, and not "${given}": smaller type can't be read in print.`,
  'figures.title': ({ given }) => `a figure's title is on or off, not "${given}".`,
  'figures.theme': ({ given, known }) => `a figure's theme is ${listed(known, 'or')}, not "${given}".`,
  'figures.font': ({ font }) =>
    `pdf and png need the file of the font ${font}: name it with --font-file REGULAR.ttf,BOLD.ttf.`,
  'figures.font-file': ({ path }) => `${path} is no font file (TrueType or OpenType) that can be read.`,
  'figures.no-png': () =>
    'this installation draws no PNG: its drawing part is left out of the editor’s package for its size. Write svg or pdf.',
  'figures.letters': ({ file, letters }) =>
    `${file}: the font lacks ${counted(letters.length, 'letter')} of the figure's text: ${letters.join(' ')}`,
  'figures.small': ({ file, points }) =>
    `${file}: its names need more than its width, so its smallest type is ${points} pt; make it wider.`,
  'figures.unknown': ({ name, line, known }) =>
    `line ${line} has settings for the figure ${name}, and there is none; there is ${listed(known)}.`,
});
