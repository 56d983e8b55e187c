import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { runCommand } from '../../src/cli/commands.ts';

export interface StatementJson {
  readonly line: number;
  readonly name: string | null;
  readonly kind: string | null;
  readonly value: unknown;
  readonly warnings: readonly { readonly code: string; readonly message: string }[];
  readonly error: {
    readonly code: string;
    readonly message: string;
    readonly line: number;
    readonly from: number;
    readonly to: number;
  } | null;
}

export interface RunJson {
  readonly notebook: string;
  readonly ok: boolean;
  readonly sources: readonly { readonly path: string; readonly bytes: number; readonly sha256: string }[];
  readonly cells: readonly {
    readonly index: number;
    readonly line: number;
    readonly statements: readonly StatementJson[];
  }[];
}

/** A folder of its own with the given files, in which the command line is run within this process. */
export class Sandbox {
  readonly folder: string;

  constructor(files: Readonly<Record<string, string | Uint8Array>>) {
    this.folder = mkdtempSync(join(tmpdir(), 'washboard-cli-'));
    for (const [path, content] of Object.entries(files)) {
      mkdirSync(dirname(join(this.folder, path)), { recursive: true });
      writeFileSync(join(this.folder, path), content);
    }
  }

  path(name: string): string {
    return join(this.folder, name);
  }

  async run(...words: readonly string[]): Promise<{ code: number; printed: string; errors: string }> {
    const { stdout, stderr } = process;
    const [write, writeError] = [stdout.write, stderr.write];
    let printed = '';
    let errors = '';
    stdout.write = ((text: string | Uint8Array) => ((printed += String(text)), true)) as typeof stdout.write;
    stderr.write = ((text: string | Uint8Array) => ((errors += String(text)), true)) as typeof stderr.write;
    try {
      const code = await runCommand(words);
      return { code, printed, errors };
    } finally {
      stdout.write = write;
      stderr.write = writeError;
    }
  }

  async runJson(
    notebook: string,
    ...options: readonly string[]
  ): Promise<{ code: number; json: RunJson; errors: string }> {
    const { code, printed, errors } = await this.run('run', this.path(notebook), '--json', ...options);
    return { code, json: JSON.parse(printed) as RunJson, errors };
  }

  remove(): void {
    rmSync(this.folder, { recursive: true });
  }
}
