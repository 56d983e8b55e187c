import type { Json } from '../values/json.ts';

/** Levels of a report that are taken apart, down to the rows of a value: what lies deeper, as a spectrum, is short enough for a text. */
const deepest = 8;

/** Characters that go out together. */
const piece = 65_536;

/**
 * The text that `JSON.stringify` makes of a report, in pieces: of some 20,000 recordings it would be longer than a text can be.
 */
export function* jsonPieces(value: Json): Generator<string> {
  let text = '';
  for (const part of parts(value, 0)) {
    text += part;
    if (text.length < piece) continue;
    yield text;
    text = '';
  }
  if (text !== '') yield text;
}

function* parts(value: Json, level: number): Generator<string> {
  if (typeof value !== 'object' || value === null || level === deepest) {
    yield JSON.stringify(value);
    return;
  }
  const isList = Array.isArray(value);
  let mark = isList ? '[' : '{';
  for (const [key, one] of Object.entries<Json>(value)) {
    yield `${mark}${isList ? '' : `${JSON.stringify(key)}:`}`;
    mark = ',';
    yield* parts(one, level + 1);
  }
  yield mark === ',' ? (isList ? ']' : '}') : isList ? '[]' : '{}';
}
