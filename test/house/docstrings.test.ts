import ts from 'typescript';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { assertNoneBut, exceptions } from './exceptions.ts';
import { filesOf, isDeclaration, isExported, root, sourceOf } from './sources.ts';

/** The rooms whose functions are formulas. */
const rooms = ['signal', 'statistics', 'analysis'];

interface Documented {
  readonly name: string;
  readonly doc: string;
  readonly parameters: readonly ts.ParameterDeclaration[];
  readonly body: ts.Node | undefined;
}

describe('the docstrings of formulas', () => {
  it('say what is given, name each number and array that goes in, and what is refused', () => {
    const files = rooms.filter((room) => existsSync(join(root, 'src', room))).flatMap((room) => filesOf(`src/${room}`));
    const missing = files.filter((file) => !isDeclaration(file)).flatMap((file) => missingInFile(file));
    const lacking = exceptions.lackingDocstrings;
    assertNoneBut(
      lacking,
      missing.map(([file, what]) => (lacking.includes(file) ? file : `${file} ${what}`)),
    );
  });
});

const missingInFile = (file: string): [string, string][] =>
  sourceOf(file)
    .statements.filter(isExported)
    .flatMap(functionsOf)
    .flatMap((one) => missingIn(one).map((what): [string, string] => [file, `${one.name} ${what}`]));

function functionsOf(statement: ts.Statement): Documented[] {
  const doc = docOf(statement);
  if (ts.isFunctionDeclaration(statement)) {
    const { name, parameters, body } = statement;
    return [{ name: name?.text ?? 'default', doc, parameters: [...parameters], body }];
  }
  if (!ts.isVariableStatement(statement)) return [];
  return statement.declarationList.declarations.flatMap(({ name, initializer }) =>
    initializer !== undefined && (ts.isArrowFunction(initializer) || ts.isFunctionExpression(initializer))
      ? [{ name: name.getText(), doc, parameters: [...initializer.parameters], body: initializer.body }]
      : [],
  );
}

function docOf(statement: ts.Statement): string {
  const text = statement.getSourceFile().text;
  const comments = ts.getLeadingCommentRanges(text, statement.pos) ?? [];
  const last = comments.at(-1);
  const comment = last === undefined ? '' : text.slice(last.pos, last.end);
  return comment.startsWith('/**') ? comment.replace(/^\/\*\*|\*\/$/g, '').replace(/^\s*\* ?/gm, '') : '';
}

function missingIn({ doc, parameters, body }: Documented): string[] {
  if (doc.trim() === '') return ['has no docstring'];
  const given = doc.split(/^@/m)[0].trim() === '' && !/^@returns /m.test(doc) ? ['does not say what it gives'] : [];
  const unnamed = parameters
    .filter(({ type, initializer }) => isNumeric(type, initializer))
    .map(({ name }) => name.getText())
    .filter((name) => !new RegExp(`\\b${name}\\b`).test(doc))
    .map((name) => `does not say what ${name} is`);
  const refuses = body !== undefined && throws(body) && !/@throws|\b(throws|refuses)\b/i.test(doc);
  return [...given, ...unnamed, ...(refuses ? ['does not say what it refuses'] : [])];
}

/** Whether a parameter is a number or numbers, whose unit or shape its type cannot say. */
function isNumeric(type: ts.TypeNode | undefined, initializer: ts.Expression | undefined): boolean {
  if (type === undefined) return initializer !== undefined && ts.isNumericLiteral(initializer);
  return /^(readonly )?(number|\w*Array(<.*>)?|.*\[\])( \| undefined)?$/.test(type.getText());
}

function throws(node: ts.Node): boolean {
  return ts.isThrowStatement(node) || (ts.forEachChild(node, throws) ?? false);
}
