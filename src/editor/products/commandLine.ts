import { spawn } from 'node:child_process';
import { dirname, join } from 'node:path';
import type { ProjectFolders } from '../../engine/service.ts';

/** How a command of the command line ended. */
export interface CommandEnd {
  /** As the command line has it; undefined if it was stopped. */
  readonly code: number | undefined;
  readonly printed: string;
  readonly complaints: string;
}

/** The program of the editor as plain Node, whether it is that of a desktop or of a server. */
export const asNode: Readonly<Record<string, string>> = { ELECTRON_RUN_AS_NODE: '1' };

/** The command line, which lies beside this. */
export const commandLine = join(__dirname, 'washboard.mjs');

/**
 * Runs a command of the command line in a process of its own: a report, figures or a record are made by the very program that
 * makes them elsewhere. @param onStop is handed what stops it
 */
export function runCommandLine(
  args: readonly string[],
  cwd: string,
  onStop: (stop: () => void) => void,
): Promise<CommandEnd> {
  return new Promise((done, reject) => {
    const child = spawn(process.execPath, [commandLine, ...args], { cwd, env: { ...process.env, ...asNode } });
    let [printed, complaints] = ['', ''];
    child.stdout.setEncoding('utf8').on('data', (text: string) => (printed += text));
    child.stderr.setEncoding('utf8').on('data', (text: string) => (complaints += text));
    child.on('error', reject);
    child.on('close', (code) => done({ code: code ?? undefined, printed, complaints }));
    onStop(() => void child.kill());
  });
}

/** How a notebook is named to a command, where its project lies, whether git may be asked; and where the command is run. */
export const locationArguments = (
  notebook: string,
  { root, history }: ProjectFolders,
): { readonly cwd: string; readonly args: string[] } => ({
  cwd: dirname(notebook),
  args: [notebook, '--root', root, ...(history === false ? ['--no-git'] : [])],
});
