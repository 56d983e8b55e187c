import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

/** The project's folder. */
export const root = fileURLToPath(new URL('../..', import.meta.url));

/** An import or a re-export as it stands in a file. */
export interface Import {
  /** What it is from: a package, or a path relative to the file. */
  readonly from: string;
  /** The file it leads to, relative to the project, where it leads to one of the project. */
  readonly target: string | undefined;
  /** Whether nothing of it is left after compilation. */
  readonly typeOnly: boolean;
  /** The exported names it takes; `*` for all of them. */
  readonly names: readonly string[];
}

/** The files of a folder and of those in it, relative to the project, with forward slashes. */
export function allFilesOf(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => !name.split(sep).includes('node_modules'))
    .map((name) => `${folder}/${name.split(sep).join('/')}`)
    .sort();
}

/** The TypeScript files among them. */
export const filesOf = (folder: string): string[] => allFilesOf(folder).filter((name) => /\.m?ts$/.test(name));

export const isDeclaration = (file: string): boolean => /\.d\.m?ts$/.test(file);

const parsed = new Map<string, ts.SourceFile>();

export function sourceOf(file: string): ts.SourceFile {
  let source = parsed.get(file);
  if (source === undefined) {
    source = ts.createSourceFile(file, readFileSync(join(root, file), 'utf8'), ts.ScriptTarget.ES2022, true);
    parsed.set(file, source);
  }
  return source;
}

export function importsOf(file: string): Import[] {
  const found: Import[] = [];
  const add = (from: ts.Expression, typeOnly: boolean, names: readonly string[]): void => {
    if (!ts.isStringLiteralLike(from)) return;
    const target = from.text.startsWith('.') ? projectPath(resolve(root, dirname(file), from.text)) : undefined;
    found.push({ from: from.text, target, typeOnly, names });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node)) {
      const { isTypeOnly = false } = node.importClause ?? {};
      add(node.moduleSpecifier, isTypeOnly, importedNames(node.importClause));
    } else if (ts.isExportDeclaration(node) && node.moduleSpecifier !== undefined) {
      const { exportClause: clause } = node;
      const names = clause !== undefined && ts.isNamedExports(clause) ? clause.elements.map(takenName) : ['*'];
      add(node.moduleSpecifier, node.isTypeOnly, names);
    } else if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument))
      add(node.argument.literal as ts.Expression, true, ['*']);
    else if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword)
      add(node.arguments[0], false, ['*']);
    ts.forEachChild(node, visit);
  };
  visit(sourceOf(file));
  return found;
}

const projectPath = (absolute: string): string => relative(root, absolute).split(sep).join('/');

function importedNames(clause: ts.ImportClause | undefined): string[] {
  if (clause === undefined) return [];
  const bindings = clause.namedBindings;
  const named = bindings === undefined ? [] : ts.isNamespaceImport(bindings) ? ['*'] : bindings.elements.map(takenName);
  return clause.name === undefined ? named : ['default', ...named];
}

/** Of `a as b` it is `a` that the other file exports. */
const takenName = ({ propertyName, name }: ts.ImportSpecifier | ts.ExportSpecifier): string =>
  (propertyName ?? name).text;

/** The names that a file exports of its own, not those it hands on from another. */
export function exportsOf(file: string): string[] {
  return sourceOf(file).statements.flatMap((statement) => {
    if (ts.isExportDeclaration(statement) && statement.exportClause !== undefined)
      return statement.moduleSpecifier === undefined && ts.isNamedExports(statement.exportClause)
        ? statement.exportClause.elements.map(({ name }) => name.text)
        : [];
    if (!isExported(statement)) return [];
    if (ts.isVariableStatement(statement))
      return statement.declarationList.declarations.flatMap(({ name }) => (ts.isIdentifier(name) ? [name.text] : []));
    const { name } = statement as ts.DeclarationStatement;
    return name === undefined ? ['default'] : [name.text];
  });
}

/** The names of the types among them: of these a reader may want one that stands in what another file takes. */
export const typesExportedOf = (file: string): string[] =>
  sourceOf(file).statements.flatMap((statement) =>
    isExported(statement) && (ts.isInterfaceDeclaration(statement) || ts.isTypeAliasDeclaration(statement))
      ? [statement.name.text]
      : [],
  );

export function isExported(statement: ts.Statement): boolean {
  const modifiers = ts.canHaveModifiers(statement) ? ts.getModifiers(statement) : undefined;
  return modifiers?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword) ?? false;
}
