import * as vscode from 'vscode';
import { editorDisk } from '../../disk/editorDisk.ts';
import { naturalOrder } from '../../disk/naturalOrder.ts';
import { pathsOf } from '../../disk/paths.ts';
import { remembered } from '../../disk/remembered.ts';
import type { ProjectFolders } from '../../engine/service.ts';
import { nowhere, type FolderEntry, type Outside } from '../../language/services/outside.ts';
import { editorFiles } from '../editorFiles.ts';
import { here } from '../here.ts';
import { foldersOf } from '../notebooks.ts';
import { addressIn, isInProject } from '../places.ts';
import type { Analysis } from './analyses.ts';
import type { EngineFacts } from './engineFacts.ts';

/**
 * What surrounds a program, for one request: what was asked once is not asked again while that is answered. For
 * warnings a channel may be called by its header, too, and a path that may not be read is not called missing: of that
 * the engine says why.
 */
export function outsideOf(
  analysis: Analysis,
  engineFacts: EngineFacts,
  purpose: 'help' | 'warnings' = 'help',
): Outside {
  const folders = foldersOf(analysis);
  // An unsaved notebook is nowhere, and relative to nowhere no file is missing.
  if (folders === undefined) return nowhere;
  const { folder, root, base } = folders;
  const expand = remembered(async (pattern: string) => {
    const disk = base === undefined ? await here().disk() : editorDisk(editorFiles(base), root);
    return pathsOf({ disk, folder, root }, pattern);
  });
  const warning = purpose === 'warnings';
  return {
    list: remembered((folder: string) => entriesOf(folders, folder)),
    count: async (pattern) => {
      const found = await expand(pattern);
      if (found.ok) return found.value.length;
      return warning && found.failure.code !== 'file.missing' ? 1 : 0;
    },
    channels: remembered(async (pattern: string) => {
      const found = await expand(pattern);
      if (!found.ok) return [];
      const [path] = found.value;
      return engineFacts.channels(folders, addressIn(folders, path), path).catch(() => []);
    }),
    facts: (name) => {
      const facts = engineFacts.name(analysis, name);
      if (!warning || facts?.channels === undefined) return facts;
      return { ...facts, channels: [...facts.channels, ...(facts.headers ?? [])] };
    },
  };
}

async function entriesOf(folders: ProjectFolders, path: string): Promise<readonly FolderEntry[]> {
  const uri = addressIn(folders, path);
  if (!isInProject(folders, uri)) return [];
  const entries = await vscode.workspace.fs.readDirectory(uri).then(
    (found) => found,
    () => [],
  );
  return entries
    .map(([name, type]) => ({ name, folder: (type & vscode.FileType.Directory) !== 0 }))
    .sort((a, b) => naturalOrder(a.name, b.name));
}
