import ts from 'typescript';
import { hitName } from './modules.ts';

/** A function of a file, by its place in the text. */
interface Place {
  readonly from: number;
  readonly to: number;
  readonly body: ts.ConciseBody;
}

function functionsOf(file: string, text: string): Place[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.ES2022, true);
  const found: Place[] = [];
  const visit = (node: ts.Node): void => {
    const body = ts.isFunctionLike(node) && 'body' in node ? (node.body as ts.ConciseBody | undefined) : undefined;
    if (body !== undefined) found.push({ from: node.getStart(source), to: node.end, body });
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

/** The number of the innermost function that holds a place of the text; undefined outside of all. */
export function functionAt(file: string, text: string, at: number): number | undefined {
  // Functions are numbered in the order of the text, so the last that holds the place is the innermost.
  const found = functionsOf(file, text).findLastIndex(({ from, to }) => from <= at && at < to);
  return found === -1 ? undefined : found;
}

/** The text in which each function marks its number when it runs, and how many there are. */
export function instrumented(file: string, text: string): { readonly text: string; readonly count: number } {
  const places = functionsOf(file, text);
  const pieces = places
    .flatMap(({ body }, k) => {
      const mark = `${hitName}[${k}] = 1`;
      if (ts.isBlock(body)) return [{ at: body.getStart() + 1, text: `${mark};`, order: 0 }];
      // Where an inner function ends with an outer one, the parentheses of the two close one after the other.
      return [
        { at: body.getStart(), text: `(${mark}, `, order: k },
        { at: body.end, text: ')', order: 0 },
      ];
    })
    .sort((a, b) => b.at - a.at || b.order - a.order);
  let result = text;
  for (const piece of pieces) result = result.slice(0, piece.at) + piece.text + result.slice(piece.at);
  return { text: result, count: places.length };
}
