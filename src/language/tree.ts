import type { Diagnostic, Place } from './diagnostic.ts';
import type { Token } from './tokens.ts';

/** What a missing piece should have been. */
export type Expected = 'step' | 'value' | 'operand' | 'unit' | 'text' | 'field' | 'number' | 'end of range';

/** A cell's text as a tree. Nothing of the text is lost: a stray piece is a node, a missing one is a node too. */
export interface Cell {
  readonly text: string;
  readonly statements: readonly Statement[];
  readonly comments: readonly Token[];
  /** What is wrong with the form of the text alone. */
  readonly found: readonly Diagnostic[];
  /** Whether all of the text was read; a cell or a notebook beyond reading ends with one statement that was not. */
  readonly whole: boolean;
}

export interface Statement {
  readonly place: Place;
  /** 1-based line within the cell. */
  readonly line: number;
  readonly name: Word | undefined;
  readonly pipeline: Pipeline;
  readonly pieces: readonly Piece[];
  /** What is wrong with the form of its text. */
  readonly found: readonly Diagnostic[];
}

/** A token of a statement, and whether canonical text joins it to the token before. */
export interface Piece {
  readonly token: Token;
  readonly tight: boolean;
}

export interface Pipeline {
  readonly place: Place;
  readonly steps: readonly (Step | Expression)[];
}

/** A verb and what follows it, flat: which item is which operand or option is for the verb's form to say. */
export interface Step {
  readonly type: 'step';
  readonly place: Place;
  readonly verb: Word;
  readonly items: readonly Item[];
  /** Units that it is asked for in where `in` follows no item: `r | levels in mm/s`. */
  readonly asked: readonly (UnitName | Missing)[];
}

export interface Item {
  readonly node: Operand;
  /** Whether a comma follows it. */
  readonly comma: boolean;
}

export type Operand = Expression | Range | Assigned | UnitName | Stray;

/** A name, a keyword, a fixed word or a channel; hyphens only where operands stand (`third-octave`). */
export interface Word {
  readonly type: 'word';
  readonly place: Place;
  readonly text: string;
}

export type Expression =
  Word | Amount | Text | Negative | Uncertain | Binary | Convert | Coverage | Call | Pick | Field | Bracket | Missing;

/** A number with or without its unit. */
export interface Amount {
  readonly type: 'number';
  readonly place: Place;
  readonly value: number;
  readonly number: Place;
  readonly unit: UnitName | undefined;
}

export interface UnitName {
  readonly type: 'unit';
  readonly place: Place;
  readonly text: string;
}

export interface Text {
  readonly type: 'text';
  readonly place: Place;
  /** Without the quotes. */
  readonly text: string;
}

export interface Negative {
  readonly type: 'negative';
  readonly place: Place;
  readonly of: Expression;
}

export interface Binary {
  readonly type: 'binary';
  readonly place: Place;
  readonly operator: '+' | '-' | '*' | '/' | '^';
  readonly left: Expression;
  readonly right: Expression;
}

/** How a quantity is spread between limits that are all that is known of it. */
export type Limits = 'rectangular' | 'triangular';

/**
 * `160 ± 5 N/mm`, `k ± 3 %`, with `rectangular` or `triangular` after it where the sign stands before a half-width, and with
 * `dof 18` the degrees of freedom of what stands behind the sign.
 */
export interface Uncertain {
  readonly type: 'uncertain';
  readonly place: Place;
  readonly of: Expression;
  readonly by: Amount | Missing;
  readonly limits: Limits | undefined;
  readonly freedom: Amount | undefined;
}

/** `x coverage 95 %` */
export interface Coverage {
  readonly type: 'coverage';
  readonly place: Place;
  readonly of: Expression;
  readonly level: Amount | Missing;
}

/** `x in mm` */
export interface Convert {
  readonly type: 'convert';
  readonly place: Place;
  readonly of: Expression;
  readonly unit: UnitName | Missing;
}

/** `sqrt(k/m)` */
export interface Call {
  readonly type: 'call';
  readonly place: Place;
  readonly name: Word;
  readonly arguments: readonly Expression[];
}

/** `runs[2]` */
export interface Pick {
  readonly type: 'pick';
  readonly place: Place;
  readonly of: Expression;
  readonly index: Amount | Missing;
}

/** `C.change` */
export interface Field {
  readonly type: 'field';
  readonly place: Place;
  readonly of: Expression;
  readonly field: Word | Missing;
}

/** `(spectrum r)`, `(a + b)` */
export interface Bracket {
  readonly type: 'bracket';
  readonly place: Place;
  readonly inner: Pipeline;
}

export interface Range {
  readonly type: 'range';
  readonly place: Place;
  readonly from: Expression;
  readonly to: Expression;
}

/** `x="sensor 2"` */
export interface Assigned {
  readonly type: 'assigned';
  readonly place: Place;
  readonly name: Word;
  readonly text: Text | Missing;
}

export interface Missing {
  readonly type: 'missing';
  /** Empty, where it should have stood. */
  readonly place: Place;
  readonly expected: Expected;
}

export interface Stray {
  readonly type: 'stray';
  readonly place: Place;
  readonly text: string;
}

export type Node = Step | Operand;

/** The nodes directly inside a node, in text order. */
export function childrenOf(node: Node | Pipeline): readonly (Node | Pipeline)[] {
  if (!('type' in node)) return node.steps;
  switch (node.type) {
    case 'step':
      return [node.verb, ...node.items.map((item) => item.node), ...node.asked];
    case 'number':
      return node.unit ? [node.unit] : [];
    case 'negative':
      return [node.of];
    case 'binary':
      return [node.left, node.right];
    case 'convert':
      return [node.of, node.unit];
    case 'uncertain':
      return [node.of, node.by, ...(node.freedom ? [node.freedom] : [])];
    case 'coverage':
      return [node.of, node.level];
    case 'call':
      return [node.name, ...node.arguments];
    case 'pick':
      return [node.of, node.index];
    case 'field':
      return [node.of, node.field];
    case 'bracket':
      return [node.inner];
    case 'range':
      return [node.from, node.to];
    case 'assigned':
      return [node.name, node.text];
    case 'word':
    case 'unit':
    case 'text':
    case 'missing':
    case 'stray':
      return [];
  }
}
