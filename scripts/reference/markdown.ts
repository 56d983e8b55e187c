/** Pieces of a Markdown page. */

/** A cell of the language. */
export const cell = (text: string): string => `\`\`\`washboard\n${text}\n\`\`\``;

/** Text of another kind, as it stands. */
export const verbatim = (text: string, kind = 'text'): string => `\`\`\`${kind}\n${text}\n\`\`\``;

export const heading = (level: number, title: string): string => `${'#'.repeat(level)} ${title}`;

/** A table, or nothing where it would have no rows. */
export function table(header: readonly string[], rows: readonly (readonly string[])[]): string {
  if (rows.length === 0) return '';
  const line = (cells: readonly string[]): string => `| ${cells.map(inCell).join(' | ')} |`;
  return [line(header), `|${header.map(() => '---').join('|')}|`, ...rows.map(line)].join('\n');
}

/** A bar would end the cell, even inside backticks; so would a line's end. */
const inCell = (text: string): string => text.replaceAll('|', '\\|').replaceAll('\n', ' ');

/** Blocks with a blank line between, without those that are empty. */
export const page = (...blocks: readonly string[]): string => blocks.filter((block) => block !== '').join('\n\n');
