import ts from 'typescript';

/** One small change to a file, which a test should notice. */
export interface Mutant {
  /** Relative to the project, with forward slashes. */
  readonly file: string;
  /** Of the change in the file's text. */
  readonly from: number;
  readonly to: number;
  readonly text: string;
  /** 1-based. */
  readonly line: number;
  /** The lines that the change touches, in one, before and after it: by them a mutant is known again after an edit elsewhere. */
  readonly before: string;
  readonly after: string;
}

/** A node's replacements. */
type Changes = readonly (readonly [node: ts.Node, text: string])[];

const swapped: Readonly<Partial<Record<ts.SyntaxKind, readonly string[]>>> = {
  [ts.SyntaxKind.PlusToken]: ['-'],
  [ts.SyntaxKind.MinusToken]: ['+'],
  [ts.SyntaxKind.AsteriskToken]: ['/'],
  [ts.SyntaxKind.SlashToken]: ['*'],
  [ts.SyntaxKind.PercentToken]: ['*'],
  [ts.SyntaxKind.AsteriskAsteriskToken]: ['*'],
  [ts.SyntaxKind.PlusEqualsToken]: ['-='],
  [ts.SyntaxKind.MinusEqualsToken]: ['+='],
  [ts.SyntaxKind.AsteriskEqualsToken]: ['/='],
  [ts.SyntaxKind.SlashEqualsToken]: ['*='],
  [ts.SyntaxKind.LessThanToken]: ['<=', '>='],
  [ts.SyntaxKind.LessThanEqualsToken]: ['<', '>'],
  [ts.SyntaxKind.GreaterThanToken]: ['>=', '<='],
  [ts.SyntaxKind.GreaterThanEqualsToken]: ['>', '<'],
  [ts.SyntaxKind.EqualsEqualsEqualsToken]: ['!=='],
  [ts.SyntaxKind.ExclamationEqualsEqualsToken]: ['==='],
  [ts.SyntaxKind.AmpersandAmpersandToken]: ['||'],
  [ts.SyntaxKind.BarBarToken]: ['&&'],
  [ts.SyntaxKind.QuestionQuestionToken]: ['&&'],
};

const swappedCalls: Readonly<Record<string, string>> = {
  min: 'max',
  max: 'min',
  floor: 'ceil',
  ceil: 'floor',
  round: 'floor',
  some: 'every',
  every: 'some',
};

/** Every mutant of a file's text, in the order of the text. */
export function mutantsOf(file: string, text: string): Mutant[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.ES2022, true);
  const found: Mutant[] = [];
  const visit = (node: ts.Node): void => {
    // Types are gone when tests run; words are held by other tests.
    if (ts.isTypeNode(node) || ts.isImportDeclaration(node) || ts.isInterfaceDeclaration(node)) return;
    for (const [part, replacement] of changesOf(node)) found.push(mutant(source, part, replacement));
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found.filter(({ before, after }) => before !== after);
}

function mutant(source: ts.SourceFile, node: ts.Node, replacement: string): Mutant {
  const { text } = source;
  const [from, to] = [node.getStart(source), node.end];
  const start = text.lastIndexOf('\n', from) + 1;
  const end = text.indexOf('\n', to) === -1 ? text.length : text.indexOf('\n', to);
  return {
    file: source.fileName,
    from,
    to,
    text: replacement,
    line: source.getLineAndCharacterOfPosition(from).line + 1,
    before: inOneLine(text.slice(start, end)),
    after: inOneLine(text.slice(start, from) + replacement + text.slice(to, end)),
  };
}

const inOneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();

function changesOf(node: ts.Node): Changes {
  if (ts.isBinaryExpression(node)) return operatorChanges(node);
  if (ts.isNumericLiteral(node)) return numberChanges(node);
  if (ts.isPrefixUnaryExpression(node)) return prefixChanges(node);
  if (ts.isIfStatement(node)) return bothWays(node.expression);
  if (ts.isConditionalExpression(node)) return bothWays(node.condition);
  if (ts.isWhileStatement(node)) return [[node.expression, 'false']];
  if (ts.isExpressionStatement(node)) return [[node, ';']];
  if (ts.isBreakStatement(node) || ts.isContinueStatement(node) || ts.isThrowStatement(node)) return [[node, ';']];
  if (ts.isReturnStatement(node) && node.expression === undefined) return [[node, ';']];
  if (ts.isPropertyAccessExpression(node) && ts.isCallExpression(node.parent) && node.parent.expression === node) {
    const other = Object.hasOwn(swappedCalls, node.name.text) ? swappedCalls[node.name.text] : undefined;
    return other === undefined ? [] : [[node.name, other]];
  }
  if (node.kind === ts.SyntaxKind.TrueKeyword) return [[node, 'false']];
  return node.kind === ts.SyntaxKind.FalseKeyword ? [[node, 'true']] : [];
}

const bothWays = (condition: ts.Expression): Changes => [
  [condition, 'true'],
  [condition, 'false'],
];

function operatorChanges({ left, operatorToken, right }: ts.BinaryExpression): Changes {
  // A sum of texts is no arithmetic.
  if (operatorToken.kind === ts.SyntaxKind.PlusToken && (isText(left) || isText(right))) return [];
  return (swapped[operatorToken.kind] ?? []).map((text) => [operatorToken, text] as const);
}

function isText(node: ts.Expression): boolean {
  if (ts.isStringLiteralLike(node) || ts.isTemplateExpression(node)) return true;
  return (
    ts.isBinaryExpression(node) &&
    node.operatorToken.kind === ts.SyntaxKind.PlusToken &&
    (isText(node.left) || isText(node.right))
  );
}

/** Constants at their boundary; 0 and 1 become each other, anything else one more. */
function numberChanges(node: ts.NumericLiteral): Changes {
  if (ts.isPropertyAssignment(node.parent) && node.parent.name === node) return [];
  const value = Number(node.text);
  return [[node, value === 0 ? '1' : value === 1 ? '0' : `(${node.text} + 1)`]];
}

function prefixChanges(node: ts.PrefixUnaryExpression): Changes {
  if (node.operator === ts.SyntaxKind.ExclamationToken) return [[node, `(${node.operand.getText()})`]];
  // The sign of a number is mutated; the counter of a loop is not, as the loop would only hang.
  if (node.operator === ts.SyntaxKind.MinusToken) return [[node, `(${node.operand.getText()})`]];
  return [];
}

/** The file's text with the change made. */
export const mutated = (text: string, { from, to, text: replacement }: Mutant): string =>
  text.slice(0, from) + replacement + text.slice(to);
