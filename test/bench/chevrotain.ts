import { createToken, CstParser, Lexer, type CstNode, type TokenType } from 'chevrotain';

/** The core of the language as a chevrotain grammar, with its own recovery: only to compare with the hand-written one. */
const sign = (name: string, pattern: string | RegExp): TokenType => createToken({ name, pattern });
const Blank = createToken({ name: 'Blank', pattern: /[^\S\r\n]+/, group: Lexer.SKIPPED });
const Comment = createToken({ name: 'Comment', pattern: /#[^\r\n]*/, group: Lexer.SKIPPED });
// Its lexer drops the `u` flag, so letters are named one by one. A line break before or after a pipe, or after a comma or an open bracket, does not end a statement.
const Pipe = createToken({ name: 'Pipe', pattern: /(?:[\r\n]\s*)?\|\s*/, line_breaks: true });
const Comma = createToken({ name: 'Comma', pattern: /,(?:\s|#[^\r\n]*[\r\n])*/, line_breaks: true });
const Open = createToken({ name: 'Open', pattern: /\(\s*/, line_breaks: true });
const Newline = createToken({ name: 'Newline', pattern: /[\r\n]+/, line_breaks: true });
const Text = sign('Text', /"[^"\r\n]*"/);
const Dots = sign('Dots', '..');
const Amount = createToken({
  name: 'Amount',
  pattern:
    /(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d+)?(?:\s*(?:%|(?:Hz|kHz|ms|min|mm|km|kgf|kg|lbf|lb|kPa|Pa|bar|psi|mph|dB|N|g|s|m)(?:[/*](?:s|mm|m|in|h|Hz))?(?:\^\d|²)?(?![A-Za-zµ\d_])))?/,
  line_breaks: false,
});
const In = createToken({ name: 'In', pattern: /in(?![A-Za-zµ\d_-])/, line_breaks: false });
const Word = createToken({ name: 'Word', pattern: /[A-Za-zµ_][A-Za-zµ\d_²]*(?:-[A-Za-zµ]+)*/, line_breaks: false });
const Close = sign('Close', ')');
const Left = sign('Left', '[');
const Right = sign('Right', ']');
const Equals = sign('Equals', '=');
const Dot = sign('Dot', '.');
const Plus = sign('Plus', /[+-]/);
const Times = sign('Times', /[*/]/);
const Power = sign('Power', '^');
const Percent = sign('Percent', '%');

const tokens = [
  Blank,
  Comment,
  Pipe,
  Comma,
  Open,
  Newline,
  Text,
  Dots,
  Amount,
  In,
  Word,
  Close,
  Left,
  Right,
  Equals,
  Dot,
  Plus,
  Times,
  Power,
  Percent,
];
const lexer = new Lexer(tokens, { positionTracking: 'onlyOffset' });

class CellParser extends CstParser {
  constructor() {
    super(tokens, { recoveryEnabled: true, maxLookahead: 2 });
    this.performSelfAnalysis();
  }

  cell = this.RULE('cell', () => {
    this.MANY(() => this.OR([{ ALT: () => this.CONSUME(Newline) }, { ALT: () => this.SUBRULE(this.statement) }]));
  });

  statement = this.RULE('statement', () => {
    this.OPTION({
      GATE: () => this.LA(1).tokenType === Word && this.LA(2).tokenType === Equals,
      DEF: () => {
        this.CONSUME(Word);
        this.CONSUME(Equals);
      },
    });
    this.SUBRULE(this.pipeline);
  });

  pipeline = this.RULE('pipeline', () => {
    this.SUBRULE(this.step);
    this.MANY(() => {
      this.CONSUME(Pipe);
      this.SUBRULE2(this.step);
    });
  });

  step = this.RULE('step', () => {
    this.SUBRULE(this.item);
    this.MANY(() => {
      this.OPTION(() => this.CONSUME(Comma));
      this.SUBRULE2(this.item);
    });
  });

  item = this.RULE('item', () => {
    this.OR([
      { ALT: () => this.CONSUME(Percent) },
      {
        GATE: () => this.LA(2).tokenType === Equals,
        ALT: () => {
          this.CONSUME(Word);
          this.CONSUME(Equals);
          this.CONSUME(Text);
        },
      },
      {
        ALT: () => {
          this.SUBRULE(this.sum);
          this.OPTION(() => {
            this.CONSUME(Dots);
            this.SUBRULE2(this.sum);
          });
          this.MANY(() => {
            this.CONSUME(In);
            this.SUBRULE(this.unit);
          });
        },
      },
    ]);
  });

  unit = this.RULE('unit', () => {
    this.OR([
      { ALT: () => this.CONSUME(Percent) },
      { ALT: () => this.SUBRULE(this.product) },
      { ALT: () => this.CONSUME(In) },
    ]);
  });

  sum = this.RULE('sum', () => {
    this.SUBRULE(this.product);
    this.MANY(() => {
      this.CONSUME(Plus);
      this.SUBRULE2(this.product);
    });
  });

  product = this.RULE('product', () => {
    this.SUBRULE(this.signed);
    this.MANY(() => {
      this.CONSUME(Times);
      this.SUBRULE2(this.signed);
    });
  });

  signed = this.RULE('signed', () => {
    this.MANY(() => this.CONSUME(Plus));
    this.SUBRULE(this.primary);
    this.OPTION(() => {
      this.CONSUME(Power);
      this.SUBRULE(this.signed);
    });
  });

  primary: (index?: number) => CstNode = this.RULE('primary', () => {
    this.OR([
      { ALT: () => this.CONSUME(Amount) },
      { ALT: () => this.CONSUME(Text) },
      { ALT: () => this.CONSUME(Word) },
      {
        ALT: () => {
          this.CONSUME(Open);
          this.SUBRULE(this.pipeline);
          this.CONSUME(Close);
        },
      },
    ]);
    this.MANY(() =>
      this.OR2([
        {
          ALT: () => {
            this.CONSUME(Left);
            this.CONSUME2(Amount);
            this.CONSUME(Right);
          },
        },
        {
          ALT: () => {
            this.CONSUME(Dot);
            this.CONSUME2(Word);
          },
        },
      ]),
    );
  });
}

const parser = new CellParser();

/** Number of errors. The step before the tree: a real one would still have to be made from the concrete tree. */
export function parseWithChevrotain(text: string): number {
  const lexed = lexer.tokenize(text);
  parser.input = lexed.tokens;
  parser.cell();
  return lexed.errors.length + parser.errors.length;
}
