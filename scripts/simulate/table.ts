/** A Markdown table with its columns lined up; every column but the first is set to the right. */
export function markdownTable(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = head.map((title, k) => Math.max(4, title.length, ...rows.map((row) => row[k].length)));
  const line = (cells: readonly string[]): string =>
    `| ${cells.map((cell, k) => (k === 0 ? cell.padEnd(widths[k]) : cell.padStart(widths[k]))).join(' | ')} |`;
  const rule = `| ${widths.map((width, k) => (k === 0 ? '-'.repeat(width) : `${'-'.repeat(width - 1)}:`)).join(' | ')} |`;
  return [line(head), rule, ...rows.map(line)].join('\n');
}
