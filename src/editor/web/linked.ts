import * as vscode from 'vscode';

/** Another of the engine's files, as one of them names it. */
const imported = /(["'])\.\/(part-\w+\.mjs)\1/g;

/**
 * The address of a module whose text lies in a folder, with those of all that it imports: a browser can load no file of the
 * extension by its own address everywhere, but a text that was read it can.
 *
 * @param known addresses by names of files; each is read once
 */
export async function linked(
  folder: vscode.Uri,
  file: string,
  known = new Map<string, Promise<string>>(),
): Promise<string> {
  const text = new TextDecoder().decode(await vscode.workspace.fs.readFile(vscode.Uri.joinPath(folder, file)));
  const names = new Set([...text.matchAll(imported)].map((found) => found[2]));
  const addresses = new Map<string, string>();
  for (const name of names) {
    const address = known.get(name) ?? linked(folder, name, known);
    known.set(name, address);
    addresses.set(name, await address);
  }
  const placed = text.replace(imported, (_whole, _quote, name: string) => JSON.stringify(addresses.get(name)));
  return URL.createObjectURL(new Blob([placed], { type: 'text/javascript' }));
}
