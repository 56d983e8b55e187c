import * as vscode from 'vscode';

/** A file system in memory: no path of it is one of the machine's. */
export class MemoryFolder implements vscode.FileSystemProvider {
  readonly #files = new Map<string, Uint8Array>();
  readonly #changed = new vscode.EventEmitter<vscode.FileChangeEvent[]>();
  readonly onDidChangeFile = this.#changed.event;

  watch(): vscode.Disposable {
    return new vscode.Disposable(() => undefined);
  }

  stat(uri: vscode.Uri): vscode.FileStat {
    const bytes = this.#files.get(uri.path);
    if (bytes === undefined && this.readDirectory(uri).length === 0) throw vscode.FileSystemError.FileNotFound(uri);
    const type = bytes === undefined ? vscode.FileType.Directory : vscode.FileType.File;
    return { type, size: bytes?.length ?? 0, ctime: 1, mtime: 1 };
  }

  readDirectory(uri: vscode.Uri): [string, vscode.FileType][] {
    const folder = uri.path === '/' ? '/' : `${uri.path}/`;
    const below = [...this.#files.keys()].filter((path) => path.startsWith(folder));
    const names = below.map((path) => path.slice(folder.length).split('/'));
    const types = names.map(
      ([name, ...rest]) => [name, rest.length > 0 ? vscode.FileType.Directory : vscode.FileType.File] as const,
    );
    return [...new Map(types)];
  }

  readFile(uri: vscode.Uri): Uint8Array {
    const bytes = this.#files.get(uri.path);
    if (bytes === undefined) throw vscode.FileSystemError.FileNotFound(uri);
    return bytes;
  }

  writeFile(uri: vscode.Uri, content: Uint8Array): void {
    this.#files.set(uri.path, content.slice());
    this.#changed.fire([{ type: vscode.FileChangeType.Changed, uri }]);
  }

  createDirectory(): void {
    // A folder is there as soon as a file is in it.
  }

  delete(uri: vscode.Uri): void {
    this.#files.delete(uri.path);
  }

  rename(): never {
    throw vscode.FileSystemError.NoPermissions();
  }
}
