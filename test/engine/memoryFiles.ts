import { createHash } from 'node:crypto';
import type { Files } from '../../src/values/ports.ts';
import type { Kept } from '../../src/engine/kept/keptAnswers.ts';
import type { Host } from '../../src/engine/host.ts';
import { refuse, tellOf } from '../../src/disk/messages.ts';
import { readChecked } from '../../src/readers/readChecked.ts';
import { refused } from '../../src/result/result.ts';
import { isPattern, levelExpression } from '../../src/disk/pattern.ts';
import { naturalOrder } from '../../src/disk/naturalOrder.ts';

/** A host whose files are texts in memory, and which notes which were identified and opened. */
export class MemoryHost implements Host {
  readonly contents: Map<string, string>;
  readonly opened: string[] = [];
  readonly identified: string[] = [];

  /** Bytes and hash of a text, made once as on a disk, where they are there already and known by the file's time. */
  readonly #stored = new Map<string, { readonly bytes: Buffer; readonly sha256: string }>();

  constructor(contents: Record<string, string> = {}) {
    this.contents = new Map(Object.entries(contents));
  }

  #bytesOf(path: string): { readonly bytes: Buffer; readonly sha256: string } {
    const text = this.contents.get(path) ?? '';
    const before = this.#stored.get(text);
    if (before !== undefined) return before;
    const bytes = Buffer.from(text);
    const made = { bytes, sha256: createHash('sha256').update(bytes).digest('hex') };
    this.#stored.set(text, made);
    return made;
  }

  readonly digest = (text: string): string => createHash('sha256').update(text).digest('hex');

  readonly files: Files = {
    expand: async (pattern, of) => {
      const paths = [...this.contents.keys()].filter((path) =>
        isPattern(pattern) ? levelExpression(pattern).test(path) : path === pattern,
      );
      if (paths.length > 0) return { ok: true, value: paths.sort(naturalOrder) };
      const missing = refuse('file.missing', { path: pattern }, 'files');
      return of === undefined ? missing : refused(tellOf(of, missing.failure));
    },
    identify: async (path) => {
      this.identified.push(path);
      const { bytes, sha256 } = this.#bytesOf(path);
      return { bytes: bytes.length, sha256 };
    },
    open: async (path) => {
      this.opened.push(path);
      const { bytes } = this.#bytesOf(path);
      return {
        path,
        size: bytes.length,
        read: async (position, length) => new Uint8Array(bytes.subarray(position, position + length)),
      };
    },
  };
}

/** What is kept, in memory. */
export class MemoryKept implements Kept {
  readonly entries = new Map<string, Uint8Array>();

  get(key: string): Promise<Uint8Array | undefined> {
    return Promise.resolve(this.entries.get(key));
  }

  set(key: string, bytes: readonly Uint8Array[]): void {
    this.entries.set(key, Uint8Array.from(bytes.flatMap((part) => [...part])));
  }
}

export const quietWatch = { cancelled: (): boolean => false, progress: (): void => undefined };

/** A recording of three axes in g, one of them with gravity: a line at 20 Hz and some noise of a fixed seed. */
export function recording(options: { seconds?: number; rate?: number; level?: number; seed?: number } = {}): string {
  const { seconds = 20, rate = 200, level = 0.3, seed = 1 } = options;
  let state = seed;
  const noise = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32 - 0.5;
  };
  const rows = ['t (s),x (g),y (g),z (g)'];
  for (let i = 0; i < seconds * rate; i++) {
    const t = i / rate;
    const line = level * Math.sin(2 * Math.PI * 20 * t);
    rows.push(
      [
        t.toFixed(4),
        (0.1 * noise()).toFixed(4),
        (0.1 * noise()).toFixed(4),
        (1 + line + 0.1 * noise()).toFixed(4),
      ].join(','),
    );
  }
  return rows.join('\n') + '\n';
}

/** A host that reads ahead, and notes what it reads. */
export function readingAhead(contents: Record<string, string>): { readonly host: Host; readonly read: string[] } {
  const host = new MemoryHost(contents);
  const read: string[] = [];
  const files: Files = {
    ...host.files,
    read: (wanted, watch) =>
      wanted.map(async ({ path, options }) => {
        read.push(path);
        const recording = await readChecked(await host.files.open(path), options, {
          ...watch,
          progress: () => undefined,
        });
        return { recording, identity: await host.files.identify(path) };
      }),
    known: (path) => (read.includes(path) ? host.files.identify(path) : Promise.resolve(undefined)),
  };
  return { host: { files, digest: host.digest }, read };
}
