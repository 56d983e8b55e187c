import papa from 'papaparse/papaparse.min.js';

/** A line's fields. A space as delimiter stands for any run of blanks; quoted fields follow RFC 4180. */
export function fieldsOf(line: string, delimiter: string): string[] {
  if (line.includes('"')) return quotedFields(line, delimiter);
  if (delimiter !== ' ') return line.split(delimiter);
  const plain = line.trim();
  return plain === '' ? [''] : plain.split(/[ \t]+/);
}

function quotedFields(line: string, delimiter: string): string[] {
  const text = delimiter === ' ' ? line.trim().replace(/[ \t]+/g, ' ') : line;
  // Blanks between a delimiter and a quote are padding, which RFC 4180 does not know.
  const tight = text.replace(/(^|[^\w"])[ ]{1,40}"/g, '$1"').replace(/"[ ]{1,40}(?=$|[^\w"])/g, '"');
  return papa.parse(tight, { delimiter, quoteChar: '"' }).data[0] ?? [''];
}

const comment = /^\s*(?:#|%|\/\/|!|\*)+\s?/;

/** Whether a line begins with a comment mark: `#`, `%`, `//`, `!` or `*`. */
export function isComment(line: string): boolean {
  return comment.test(line);
}

/** A line without its comment mark. */
export function uncommented(line: string): string {
  return line.replace(comment, '');
}

/** Whether a line holds blanks alone. */
export function isBlank(line: string): boolean {
  return line.trim() === '';
}

/** 1-based column in the line where a field begins. */
export function columnOfField(text: string, fields: readonly string[], k: number): number {
  let at = 0;
  for (let i = 0; i <= k; i++) {
    const found = text.indexOf(fields[i], at);
    if (found < 0) return 1;
    if (i === k) return found + 1 + (fields[i].length - fields[i].trimStart().length);
    at = found + fields[i].length;
  }
  return 1;
}
