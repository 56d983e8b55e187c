import * as vscode from 'vscode';

/** The folder of the machine that serves the page, as a file system of the editor. */
export class ServedFolder implements vscode.FileSystemProvider {
  readonly #origin: string;
  readonly #changed = new vscode.EventEmitter<vscode.FileChangeEvent[]>();
  readonly onDidChangeFile = this.#changed.event;

  constructor(origin: string) {
    this.#origin = origin;
  }

  watch(): vscode.Disposable {
    return new vscode.Disposable(() => undefined);
  }

  async stat(uri: vscode.Uri): Promise<vscode.FileStat> {
    return (await this.#fetch(uri, 'stat')).json() as Promise<vscode.FileStat>;
  }

  async readDirectory(uri: vscode.Uri): Promise<[string, vscode.FileType][]> {
    return (await this.#fetch(uri, 'list')).json() as Promise<[string, vscode.FileType][]>;
  }

  async readFile(uri: vscode.Uri): Promise<Uint8Array> {
    return new Uint8Array(await (await this.#fetch(uri, 'bytes')).arrayBuffer());
  }

  async writeFile(uri: vscode.Uri, content: Uint8Array): Promise<void> {
    await this.#fetch(uri, 'bytes', { method: 'PUT', body: content.slice() });
    this.#changed.fire([{ type: vscode.FileChangeType.Changed, uri }]);
  }

  async createDirectory(uri: vscode.Uri): Promise<void> {
    await this.#fetch(uri, 'folder', { method: 'PUT' });
  }

  delete(): never {
    throw vscode.FileSystemError.NoPermissions();
  }

  rename(): never {
    throw vscode.FileSystemError.NoPermissions();
  }

  async #fetch(uri: vscode.Uri, what: string, init: RequestInit = {}): Promise<Response> {
    const path = uri.path.replace(/^\/study\/?/, '');
    const address = `${this.#origin}/files/${path.split('/').map(encodeURIComponent).join('/')}?what=${what}`;
    const found = await fetch(address, init);
    if (!found.ok) throw vscode.FileSystemError.FileNotFound(uri);
    return found;
  }
}
