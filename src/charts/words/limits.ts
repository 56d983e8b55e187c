// What is said where there is more than a picture or a page can hold.

/** Sentences after one another, those that there are. */
export const spaced = (...sentences: readonly string[]): string => sentences.filter((one) => one !== '').join(' ');

/** @param advice whether single runs can be picked to see the others */
export function firstShown(shown: number, all: number, advice: 'pick runs' | 'none'): string {
  if (shown >= all) return '';
  return `The first ${shown} of ${all} are shown${advice === 'none' ? '' : '; pick single runs to see the others'}.`;
}

/** Behind the caption of a table that is cut. @param all with their noun: `1000 rows` */
export const firstRows = (shown: number, all: string): string => ` (the first ${shown} of ${all})`;

/** In the place of a plot that shows nothing. @param kinds of what it was given */
export const nothingToDraw = (kinds: readonly string[]): string =>
  `There is nothing to draw in ${kinds.join(', ') || 'an empty plot'}.`;
