import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { compileFunction } from 'node:vm';
import { transformSync } from 'esbuild';

/** The project's folder. */
export const root = fileURLToPath(new URL('../..', import.meta.url));

/** What instrumented code calls the list in which it marks its functions. */
export const hitName = '$hit';

type Code = (...given: readonly unknown[]) => void;

interface Compiled {
  readonly code: Code;
  /** What it imports when it runs: files of the project, relative to it, and packages by name. */
  readonly files: ReadonlyMap<string, string>;
  readonly packages: readonly string[];
}

/**
 * The project's modules as functions, each compiled once a process: a mutant costs the compilation of one file, and
 * every mutant runs in modules of its own, so that nothing one has kept is seen by the next.
 */
const compiled = new Map<string, Compiled>();
const packages = new Map<string, unknown>();

export const textOf = (file: string): string => readFileSync(join(root, file), 'utf8');

export function compile(file: string, text: string): Compiled {
  const { code } = transformSync(text, {
    loader: 'ts',
    format: 'cjs',
    target: 'node20',
    supported: { 'dynamic-import': false },
    define: { 'import.meta.url': JSON.stringify(pathToFileURL(join(root, file)).href) },
  });
  const names = [...code.matchAll(/\brequire\("([^"]+)"\)/g)].map((match) => match[1]);
  const files = names.filter((name) => name.startsWith('.'));
  return {
    code: compileFunction(code, ['exports', 'module', 'require', hitName], { filename: join(root, file) }) as Code,
    files: new Map(files.map((name) => [name, join(file, '..', name).replaceAll('\\', '/')])),
    packages: names.filter((name) => !name.startsWith('.')),
  };
}

export function known(file: string): Compiled {
  let found = compiled.get(file);
  if (found === undefined) compiled.set(file, (found = compile(file, textOf(file))));
  return found;
}

/** The files that these need, themselves included. */
export function closureOf(files: readonly string[]): Set<string> {
  const found = new Set<string>();
  const queue = [...files];
  for (let file = queue.pop(); file !== undefined; file = queue.pop()) {
    if (found.has(file)) continue;
    found.add(file);
    queue.push(...known(file).files.values());
  }
  return found;
}

/** Loads, once a process, the packages that these files and all they import need. */
export async function loadPackages(files: readonly string[]): Promise<void> {
  for (const file of closureOf(files))
    for (const name of known(file).packages)
      if (!packages.has(name)) {
        const loaded = (await import(name)) as object;
        packages.set(name, { ...loaded, __esModule: true });
      }
}

/** A fresh set of modules, in which some files may stand with another text. */
export class Modules {
  readonly #made = new Map<string, { exports: unknown }>();
  readonly #changed: (file: string) => Compiled | undefined;
  readonly #hits: (file: string) => Uint8Array | undefined;

  /** @param hits where a file's instrumented functions are marked */
  constructor(
    changed: (file: string) => Compiled | undefined,
    hits: (file: string) => Uint8Array | undefined = () => undefined,
  ) {
    this.#changed = changed;
    this.#hits = hits;
  }

  load(file: string): unknown {
    const before = this.#made.get(file);
    if (before !== undefined) return before.exports;
    const module = { exports: {} as unknown };
    this.#made.set(file, module);
    const { code, files } = this.#changed(file) ?? known(file);
    const require = (name: string): unknown => {
      const inProject = files.get(name);
      return inProject === undefined ? packages.get(name) : this.load(inProject);
    };
    code(module.exports, module, require, this.#hits(file));
    return module.exports;
  }
}
