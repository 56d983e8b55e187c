import { strict as assert } from 'node:assert';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { circlesOf } from './circles.ts';
import { assertNoneBut, exceptions } from './exceptions.ts';
import { exportsOf, filesOf, importsOf, isDeclaration, root, sourceOf, typesExportedOf } from './sources.ts';

/** What makes files that are shipped: the grammar and the reference. */
const generators = ['scripts/grammar/makeGrammar.ts', 'scripts/reference/makeReference.ts'];

/** What is bundled. */
const doors = [
  ...readFileSync(join(root, 'scripts/build/bundles.mjs'), 'utf8').matchAll(/entryPoints: (?:\[[^\]]*\]|\{[^}]*\})/g),
].flatMap(([entries]) => [...entries.matchAll(/'(src\/[^']+)'/g)].map((match) => match[1]));

const files = filesOf('src');
const targetsOf = (file: string): string[] => importsOf(file).flatMap(({ target }) => target ?? []);

describe('the circles of a graph', () => {
  it('are the groups of nodes that lead to each other, and nodes that lead to themselves', () => {
    const graph = { a: ['b'], b: ['c', 'd'], c: ['a'], d: ['e'], e: ['e', 'f'], f: [], g: ['d', 'h'], h: ['g'] };
    assert.deepEqual(circlesOf(new Map(Object.entries(graph))), [['a', 'b', 'c'], ['e'], ['g', 'h']]);
  });
});

describe('the files of src', () => {
  it('import each other in no circle, types included', () => {
    assertNoneBut(exceptions.inCircles, circlesOf(new Map(files.map((file) => [file, targetsOf(file)]))).flat());
  });

  it('are each reached from a door', () => {
    assert.equal(doors.length, 9);
    const reached = new Set<string>();
    const queue = [...doors, ...generators];
    for (let file = queue.pop(); file !== undefined; file = queue.pop()) {
      if (reached.has(file)) continue;
      reached.add(file);
      queue.push(...targetsOf(file).filter((target) => target.endsWith('.ts')));
    }
    // Declarations of the host's globals and of untyped packages are found by the compiler itself.
    assertNoneBut(
      exceptions.unreached,
      files.filter((file) => !reached.has(file) && !isDeclaration(file)),
    );
  });

  it('export nothing that only tests use', () => {
    const taken = takenBy([...files, ...filesOf('scripts')]);
    assertNoneBut(
      exceptions.onlyTested,
      files
        .filter((file) => !isDeclaration(file) && !doors.includes(file) && !taken.has(`${file} *`))
        .flatMap((file) => {
          const uses = usesIn(sourceOf(file));
          const names = exportsOf(file).filter((name) => (uses.get(name) ?? 0) < 2);
          return names.map((name) => `${file} ${name}`).filter((name) => !taken.has(name));
        }),
    );
  });

  it('export no value that no other file takes', () => {
    const taken = takenBy([...files, ...filesOf('scripts'), ...filesOf('test')]);
    assertNoneBut(
      [],
      files
        .filter((file) => !isDeclaration(file) && !doors.includes(file) && !taken.has(`${file} *`))
        .flatMap((file) => {
          const types = typesExportedOf(file);
          return exportsOf(file)
            .filter((name) => !types.includes(name) && !taken.has(`${file} ${name}`))
            .map((name) => `${file} ${name}`);
        }),
    );
  });
});

/** What files import of others: the file and the exported name, `*` for all. */
const takenBy = (users: readonly string[]): ReadonlySet<string> =>
  new Set(
    users.flatMap((user) =>
      importsOf(user).flatMap(({ target = '', names }) => names.map((name) => `${target} ${name}`)),
    ),
  );

/** How often each name stands in a file, its declaration included. */
function usesIn(source: ts.SourceFile): ReadonlyMap<string, number> {
  const uses = new Map<string, number>();
  const visit = (node: ts.Node): void => {
    if (ts.isIdentifier(node)) uses.set(node.text, (uses.get(node.text) ?? 0) + 1);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return uses;
}
