/** Columns of a row of a pipe table: cells between `|` that no backslash escapes, the outer ones optional. */
function columnsOf(row: string): number {
  const text = row.trim();
  if (!text.includes('|')) return 0;
  const cells = text.split(/(?<!\\)\|/);
  if (cells[0] === '') cells.shift();
  if (cells[cells.length - 1] === '') cells.pop();
  return cells.length;
}

/**
 * Whether `rule` below `header` makes the two the head of a pipe table. Tables are no part of CommonMark,
 * but every viewer has them, and what may interrupt a row differs from what may interrupt a paragraph.
 */
export function startsTable(header: string, rule: string): boolean {
  if (!/^(?:[|:][-|: ]|-[-|:])[-|: ]*$/.test(rule)) return false;
  const marks = rule.split('|').map((mark) => mark.trim());
  if (marks[0] === '') marks.shift();
  if (marks[marks.length - 1] === '') marks.pop();
  return marks.every((mark) => /^:?-+:?$/.test(mark)) && marks.length === columnsOf(header);
}
