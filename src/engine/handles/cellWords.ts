/** The most letters of a cell's first remark that are told. */
const longest = 48;

/** A cell for a reader, as in a message, with its first remark: `cell 7, Foam on bricks`. */
export function cellWords(cell: number, text: string): string {
  const remark = /^\s*#+\s*(\S.*)$/.exec(text.split(/\r\n|\r|\n/, 1)[0])?.[1].trim() ?? '';
  const told = remark.length <= longest ? remark : `${remark.slice(0, longest - 1).trimEnd()}…`;
  return `cell ${cell + 1}${told === '' ? '' : `, ${told}`}`;
}
