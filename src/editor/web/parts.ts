import * as vscode from 'vscode';
import * as shared from '../here.ts';

/** Names of the parts of the extension that are files of their own and need nothing of Node. */
const names = (process.env.WASHBOARD_PARTS ?? '').split(' ');

/** Reads the parts of the extension that both its entries load: in a browser nothing else finds a file beside another. */
export async function readParts(dist: vscode.Uri): Promise<void> {
  const read = async (name: string): Promise<[string, string]> => {
    const bytes = await vscode.workspace.fs.readFile(vscode.Uri.joinPath(dist, `${name}.cjs`));
    return [`./${name}.cjs`, new TextDecoder().decode(bytes)];
  };
  const texts = new Map(await Promise.all(names.map(read)));
  const loaded = new Map<string, { exports: unknown }>([['./here.cjs', { exports: shared }]]);
  partOf = (name) => {
    const before = loaded.get(name);
    if (before !== undefined) return before.exports;
    const text = texts.get(name);
    if (text === undefined) throw new Error(`a browser has no part ${name}`);
    const made: { exports: unknown } = { exports: {} };
    loaded.set(name, made);
    const run = new Function('module', 'exports', 'require', text) as (...given: readonly unknown[]) => void;
    run(made, made.exports, require);
    return made.exports;
  };
}
