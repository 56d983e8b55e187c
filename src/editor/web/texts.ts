import * as vscode from 'vscode';
import type { Texts } from '../texts.ts';

/** After so many texts the folder is weighed again. */
const weighedEach = 20;

/** Texts in a folder of the editor's own storage, a file each; beyond the limit the oldest go first. */
export class StoredTexts implements Texts {
  readonly #folder: vscode.Uri;
  readonly #limit: number;
  #written = 0;

  /** @param limit bytes of all files together */
  constructor(folder: vscode.Uri, limit = 20e6) {
    this.#folder = folder;
    this.#limit = limit;
  }

  async get(key: string): Promise<string | undefined> {
    const bytes = await Promise.resolve(vscode.workspace.fs.readFile(this.#file(key))).catch(() => undefined);
    return bytes && new TextDecoder().decode(bytes);
  }

  async any(): Promise<boolean> {
    return (await this.#names()).length > 0;
  }

  async put(key: string, text: string): Promise<void> {
    try {
      await vscode.workspace.fs.writeFile(this.#file(key), new TextEncoder().encode(text));
      if (this.#written++ % weighedEach === 0) await this.#shrink();
    } catch {
      // No room in the browser's storage, say: the text is made again when it is wanted.
    }
  }

  async forget(key: string): Promise<void> {
    await Promise.resolve(vscode.workspace.fs.delete(this.#file(key))).catch(() => undefined);
  }

  async #shrink(): Promise<void> {
    const files = await Promise.all(
      (await this.#names()).map(async (name) => {
        const file = vscode.Uri.joinPath(this.#folder, name);
        return { file, ...(await vscode.workspace.fs.stat(file)) };
      }),
    );
    let total = files.reduce((sum, { size }) => sum + size, 0);
    for (const { file, size } of files.sort((a, b) => a.mtime - b.mtime)) {
      if (total <= this.#limit) return;
      await vscode.workspace.fs.delete(file);
      total -= size;
    }
  }

  async #names(): Promise<string[]> {
    const entries = await Promise.resolve(vscode.workspace.fs.readDirectory(this.#folder)).catch(() => []);
    return entries.map(([name]) => name);
  }

  #file(key: string): vscode.Uri {
    return vscode.Uri.joinPath(this.#folder, `${key.replace(/[^\w.-]/g, '_')}.json`);
  }
}
