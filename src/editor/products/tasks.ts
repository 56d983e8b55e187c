import * as vscode from 'vscode';
import { asNode, commandLine } from './commandLine.ts';

const taskType = 'washboard';

/** What a task of ours says in `tasks.json`. */
interface WashboardTask extends vscode.TaskDefinition {
  readonly command: string;
  /** The notebook's path, relative to its workspace folder. */
  readonly notebook: string;
  readonly args?: readonly string[];
}

/** What a command complains of, as the editor's problems: by the line of the notebook, or of the notebook as a whole. */
const matchers = ['$washboard', '$washboard-differences'];

/** The commands that need nothing but a notebook. */
const offered = ['run', 'verify', 'record', 'report'] as const;

/** So many notebooks at most are offered as tasks; further ones can be named in `tasks.json`. */
const most = 200;

/** The commands of the command line on the workspace's notebooks, as tasks. */
export const tasks: vscode.TaskProvider = {
  async provideTasks() {
    const notebooks = await vscode.workspace.findFiles('**/*.washboard.md', '**/{node_modules,out,dist}/**', most);
    return notebooks.flatMap((uri) => {
      const folder = vscode.workspace.getWorkspaceFolder(uri);
      const notebook = vscode.workspace.asRelativePath(uri, false);
      return folder === undefined
        ? []
        : offered.map((command) => taskOf({ type: taskType, command, notebook }, folder));
    });
  },
  resolveTask(task) {
    const definition = task.definition as WashboardTask;
    const folder = typeof task.scope === 'object' ? task.scope : vscode.workspace.workspaceFolders?.at(0);
    return folder === undefined ? undefined : taskOf(definition, folder);
  },
};

function taskOf(definition: WashboardTask, folder: vscode.WorkspaceFolder): vscode.Task {
  const { command, notebook, args = [] } = definition;
  const run = new vscode.ProcessExecution(process.execPath, [commandLine, command, notebook, ...args], {
    cwd: folder.uri.fsPath,
    env: { ...asNode },
  });
  return new vscode.Task(definition, folder, `${command} ${notebook}`, 'washboard', run, matchers);
}
