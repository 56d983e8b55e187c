/**
 * What no text from outside may bring to a reader as it is: control characters but line feed and tab (a terminal
 * obeys them, and XML 1.0, section 2.2, forbids most), separators that some readers take for line ends, embeddings,
 * overrides and isolates of writing direction (Unicode TR36, section 2.9: what is read is not what is there), halves of
 * characters, and codes that are no characters.
 */
const unseen = /[\0-\x08\v-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufffe\uffff]|\p{Cs}/gu;

const escaped = (sign: string): string => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`;

/** Printable ASCII, which most texts are: nothing in it has to be looked for. */
const plain = /^[ -~]*$/;

/** Text that only shows: what would steer a terminal, turn the writing around or break a page is written as `\u001b`. */
export const visible = (text: string): string => (plain.test(text) ? text : text.replace(unseen, escaped));

/** The same for what has to stay on one line: line feeds and tabs are written so, too. */
export const visibleLine = (text: string): string =>
  plain.test(text) ? text : visible(text).replace(/[\n\t]/g, escaped);
