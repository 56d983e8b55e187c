/** Text that is HTML already, and goes into a template as it stands. */
export class Markup {
  readonly text: string;

  constructor(text: string) {
    this.text = text;
  }
}

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

const escapeText = (text: string): string => text.replace(/[&<>"']/g, (sign) => entities[sign]);

type Piece = Markup | string | number | undefined | readonly Piece[];

/** A template of HTML: everything put into it is escaped, unless it is markup itself. */
export function html(strings: TemplateStringsArray, ...pieces: readonly Piece[]): Markup {
  return new Markup(strings.reduce((text, part, i) => text + write(pieces[i - 1]) + part));
}

function write(piece: Piece): string {
  if (piece === undefined) return '';
  if (piece instanceof Markup) return piece.text;
  if (typeof piece === 'object') return piece.map(write).join('');
  return escapeText(String(piece));
}
