import * as vscode from 'vscode';
import type { EngineThreads } from '../engineThreads.ts';
import { notebookType } from '../names.ts';
import { registerNumberCommands } from './commands.ts';
import { registerNumberCompletion } from './completion.ts';
import { registerMarks } from './marks.ts';
import { registerProblems } from './problems.ts';
import { ProseNumbers } from './proseNumbers.ts';

/** What the editor does with numbers in prose. */
export function registerProse(engine: EngineThreads): vscode.Disposable {
  const selector: vscode.DocumentSelector = { language: 'markdown', notebookType };
  const numbers = new ProseNumbers(engine);
  return vscode.Disposable.from(
    numbers,
    registerProblems(selector, numbers),
    registerNumberCompletion(selector, numbers),
    registerNumberCommands(numbers),
    registerMarks(numbers),
  );
}
