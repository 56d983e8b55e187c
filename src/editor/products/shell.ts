import { chmod, mkdir, readFile, writeFile } from 'node:fs/promises';
import { delimiter, join } from 'node:path';
import * as vscode from 'vscode';
import { commandLine } from './commandLine.ts';

/** Puts `washboard` on the PATH of the editor's terminals, run by the editor's own Node. */
export async function offerInTerminals(context: vscode.ExtensionContext): Promise<void> {
  const folder = join(context.globalStorageUri.fsPath, 'bin');
  await mkdir(folder, { recursive: true });
  const quoted = (text: string): string => `'${text.replaceAll("'", "'\\''")}'`;
  await put(
    join(folder, 'washboard'),
    `#!/bin/sh\nELECTRON_RUN_AS_NODE=1 exec ${quoted(process.execPath)} ${quoted(commandLine)} "$@"\n`,
  );
  if (process.platform === 'win32')
    await put(
      join(folder, 'washboard.cmd'),
      `@echo off\r\nsetlocal\r\nset ELECTRON_RUN_AS_NODE=1\r\n"${process.execPath}" "${commandLine}" %*\r\n`,
    );
  const { environmentVariableCollection: variables } = context;
  variables.description = vscode.l10n.t('Puts the command washboard on the PATH.');
  variables.prepend('PATH', `${folder}${delimiter}`);
}

/** Written only where it differs: each window of the editor does so. */
async function put(file: string, text: string): Promise<void> {
  const found = await readFile(file, 'utf8').catch(() => undefined);
  if (found === text) return;
  await writeFile(file, text);
  await chmod(file, 0o755);
}
