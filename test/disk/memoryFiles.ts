import type { EditorFiles, EditorStat } from '../../src/disk/editorFiles.ts';

/** A file system in memory, as an editor may stand for; what is written counts as changed then. */
export class MemoryFiles implements EditorFiles {
  readonly files = new Map<string, Uint8Array>();
  readonly links = new Set<string>();
  readonly times = new Map<string, number>();
  /** Paths in the order in which they were read. */
  readonly reads: string[] = [];
  #now = 1000;

  write(path: string, content: string | Uint8Array, time = this.#now++): void {
    this.files.set(path, typeof content === 'string' ? new TextEncoder().encode(content) : content);
    this.times.set(path, time);
  }

  stat(path: string): Promise<EditorStat | undefined> {
    const isLink = this.links.has(path);
    const bytes = this.files.get(path);
    if (bytes !== undefined)
      return Promise.resolve({ kind: 'file', isLink, size: bytes.length, changed: this.times.get(path) ?? 0 });
    const isFolder = [...this.files.keys()].some((one) => one.startsWith(path === '/' ? '/' : `${path}/`));
    return Promise.resolve(isFolder ? { kind: 'folder', isLink, size: 0, changed: 1 } : undefined);
  }

  async list(path: string) {
    if ((await this.stat(path))?.kind !== 'folder') return undefined;
    const below = path === '/' ? '/' : `${path}/`;
    const names = new Set(
      [...this.files.keys()].filter((one) => one.startsWith(below)).map((one) => one.slice(below.length).split('/')[0]),
    );
    return Promise.all([...names].map(async (name) => ({ name, stat: (await this.stat(below + name))! })));
  }

  read(path: string) {
    this.reads.push(path);
    const bytes = this.files.get(path);
    return Promise.resolve(bytes === undefined ? { refused: 'ENOENT' } : { bytes });
  }
}
