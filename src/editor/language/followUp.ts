import * as vscode from 'vscode';

/** After a verb or an option was taken from the list: what comes next, and the form it is part of. */
export const followUp: vscode.Command = { title: 'What comes next', command: 'washboard.followUp' };

export const registerFollowUp = (): vscode.Disposable =>
  vscode.commands.registerCommand(followUp.command, async () => {
    await vscode.commands.executeCommand('editor.action.triggerSuggest');
    await vscode.commands.executeCommand('editor.action.triggerParameterHints');
  });
