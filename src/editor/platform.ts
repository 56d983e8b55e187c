import type * as vscode from 'vscode';
import type { Disk } from '../disk/disk.ts';
import type { StartEngine } from './engineProgram.ts';
import type { Texts } from './texts.ts';

/** What is not the same where the editor's extensions run in Node and where they run in a browser. */
export interface Platform {
  readonly startEngine: StartEngine;
  /** Processors of the machine. */
  readonly processors: number;
  /** The path of a file or folder on this machine's disk; undefined for all that lies elsewhere. */
  pathOf(uri: vscode.Uri): string | undefined;
  /** The project's folder of a folder on this machine's disk. */
  projectRoot(folder: string): string;
  /** This machine's disk. */
  disk(): Promise<Disk>;
  /** The first bytes of a file, at least as many as are asked for where it has so many; none where it can't be read. */
  head(file: vscode.Uri, bytes: number): Promise<Uint8Array>;
  /** Where what cells showed is kept. */
  texts(): Promise<Texts>;
  /** Registers what makes files of a notebook. */
  registerProducts(
    context: vscode.ExtensionContext,
    log: vscode.LogOutputChannel,
    messaging: vscode.NotebookRendererMessaging,
  ): vscode.Disposable;
}
