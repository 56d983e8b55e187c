/** One line of a notebook's front matter: `figures: width 85 mm`. */
export interface FrontMatterLine {
  readonly key: string;
  readonly value: string;
  /** 1-based. */
  readonly line: number;
}

const fence = /^---[ \t]*$/;

/** The lines between the marks `---` at the head of a notebook's text, and the text after them. */
export function frontMatter(text: string): { readonly entries: readonly FrontMatterLine[]; readonly rest: string } {
  const lines = text.split(/\r\n|\r|\n/);
  const end = fence.test(lines[0]) ? lines.findIndex((line, index) => index > 0 && fence.test(line)) : -1;
  if (end < 0) return { entries: [], rest: text };
  const entries = lines.slice(1, end).flatMap((line, index) => {
    const found = /^([^\s:#][^:]*?)\s*:\s*(.*?)\s*$/.exec(line);
    return found === null ? [] : [{ key: found[1], value: found[2], line: index + 2 }];
  });
  return { entries, rest: lines.slice(end + 1).join('\n') };
}
