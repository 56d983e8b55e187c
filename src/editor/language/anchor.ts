/**
 * The anchor that a Markdown preview makes of a heading: lower case, blanks as hyphens, no punctuation. The headings of
 * the reference are such that none needs a number to be told from another.
 */
export const anchorOf = (title: string): string =>
  title
    .trim()
    .toLowerCase()
    .replace(/\s+/g, '-')
    .replace(/[^\p{L}\p{N}_-]/gu, '');
