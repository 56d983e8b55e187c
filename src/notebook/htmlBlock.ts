/**
 * HTML blocks of CommonMark (spec 4.6): the seven ways in which one begins. A fence inside one is text of
 * the HTML, so a cell that is commented out does not run.
 */
export interface HtmlBlock {
  /** What ends the block on the line that holds it; null: a blank line ends it. */
  readonly end: RegExp | null;
  /** A line that ends it, for text in which it was left open. */
  readonly closer: string;
}

const names =
  'address article aside base basefont blockquote body caption center col colgroup dd details dialog dir div dl dt ' +
  'fieldset figcaption figure footer form frame frameset h1 h2 h3 h4 h5 h6 head header hr html iframe legend li link ' +
  'main menu menuitem nav noframes ol optgroup option p param search section summary table tbody td tfoot th thead ' +
  'title tr track ul';
const attribute = String.raw`\s+[a-zA-Z_:][a-zA-Z0-9:._-]*(?:\s*=\s*(?:[^"'=<>\x60\x00-\x20]+|'[^']*'|"[^"]*"))?`;
const openTag = String.raw`<[A-Za-z][A-Za-z0-9\-]*(?:${attribute})*\s*\/?>`;
const closeTag = String.raw`<\/[A-Za-z][A-Za-z0-9\-]*\s*>`;

interface Kind extends HtmlBlock {
  readonly start: RegExp;
  readonly interrupts: boolean;
}

/** In the order of the specification: the first that fits counts. */
const kinds: readonly Kind[] = [
  { start: /^<pre(?=\s|>|$)/i, end: /<\/(?:script|pre|style|textarea)>/i, closer: '</pre>', interrupts: true },
  {
    start: /^<(?:script|style|textarea)(?=\s|>|$)/i,
    end: /<\/(?:script|pre|style|textarea)>/i,
    closer: '</script></style></textarea>',
    interrupts: true,
  },
  { start: /^<!--/, end: /-->/, closer: '-->', interrupts: true },
  { start: /^<\?/, end: /\?>/, closer: '?>', interrupts: true },
  { start: /^<![A-Za-z]/, end: />/, closer: '>', interrupts: true },
  { start: /^<!\[CDATA\[/, end: /\]\]>/, closer: ']]>', interrupts: true },
  {
    start: new RegExp(`^</?(?:${names.replaceAll(' ', '|')})(?=\\s|/?>|$)`, 'i'),
    end: null,
    closer: '',
    interrupts: true,
  },
  { start: new RegExp(`^(?:${openTag}|${closeTag})\\s*$`), end: null, closer: '', interrupts: false },
];

/**
 * The HTML block that begins with `text` (a line without its indent), or null.
 * @param inParagraph whether the line would break into a paragraph, which a lone tag may not
 */
export function htmlBlockAt(text: string, inParagraph: boolean): HtmlBlock | null {
  if (!text.startsWith('<')) return null;
  const kind = kinds.find(({ start }) => start.test(text));
  return kind && (kind.interrupts || !inParagraph) ? kind : null;
}
