import { messages } from '../result/messages.ts';
import type { DiskFault } from './faults.ts';

type Missing =
  | { readonly path: string; readonly near?: string; readonly missingFolder?: string }
  /** `folder` is the notebook's, relative to the project. */
  | { readonly pattern: string; readonly folder: string };

/** What a file is that no product may take the place of. */
export type ProtectedAs = 'notebook' | 'any notebook' | 'source' | 'record';

export interface DiskFacts {
  'file.outside': { path: string; how: 'absolute' | 'address' | 'outside' | 'link' };
  'file.folder': { path: string };
  'file.missing': Missing;
  'file.special': { path: string };
  /** `path` is the folder. */
  'file.unlisted': { pattern: string; path: string };
  'file.unsaved': object;
  'write.kept': { path: string; as: ProtectedAs };
  /** `isOfNotes`: each file of the kind may hold what somebody wrote into it. */
  'write.foreign': { path: string; kind: string; isOfNotes: boolean };
  'write.other': { path: string; kind: string };
  'write.failed': { path: string } & DiskFault;
  'disk.failed': { path: string | undefined } & DiskFault;
  'history.none': object;
  'history.revision': { revision: string };
  'history.file': { file: string; revision: string };
}

/** Why a file of the project cannot be read, or one that a command makes cannot be written. */
export const { refuse, tellOf } = messages<DiskFacts>({
  'file.outside': ({ path, how }) => `"${path}" ${outside[how]}`,
  'file.folder': ({ path }) => `"${path}" is a folder: name its files, as in "${path.replace(/\/$/, '')}/*.csv".`,
  'file.missing': missing,
  'file.special': ({ path }) =>
    `"${path}" is a pipe or a device and no file: save the recording as a file and load that.`,
  'file.unlisted': ({ pattern, path }) =>
    `The folder "${path}" can't be listed, so that it is not known which of its files match "${pattern}": see its permissions, or name the files by a pattern that passes it by.`,
  'file.unsaved': () =>
    'raw files need a saved notebook, for their paths are relative to its folder: save it, best beside the recordings, and run this again.',
  'write.kept': ({ path, as }) => `${path} is ${kept[as]}, which is never written over: name another file.`,
  'write.foreign': ({ path, kind, isOfNotes }) =>
    `${path} is there already and is ${isOfNotes ? 'left as it is' : `no ${kind} that Washboard made`}: name another file, or write over it with --force.`,
  'write.other': ({ path, kind }) =>
    `${path} is not of the kind that even --force writes a ${kind} over: name another file, or delete it first.`,
  'write.failed': ({ path, ...fault }) => `${path} can't be written: ${unwritten(fault)}.`,
  'disk.failed': ({ path, reason, system = 'no code' }) =>
    `the system refused ${path ?? 'an operation on a file'}: ${reason === 'other' ? `it says ${system}` : refusals[reason]}.`,
  'history.none': () =>
    "git does not answer for the notebook's folder: what changed is told against a record that was committed there.",
  'history.revision': ({ revision }) => `git knows no revision "${revision}" here.`,
  'history.file': ({ file, revision }) =>
    `${file} is not in git at ${revision}: write it with "washboard record" and commit it.`,
});

const refusals = {
  full: 'the disk is full',
  missing: 'it is not there',
  blocked: 'a file stands where its folder should be',
  folder: 'it is a folder',
  device: 'it is a pipe or a device',
  denied: 'it may not be read or written; see its permissions',
  long: 'its name is too long',
};

const kept = {
  notebook: 'the notebook itself',
  'any notebook': 'a notebook',
  source: 'one of the raw files',
  record: "the notebook's record",
};

function unwritten({ reason, system = 'no code' }: DiskFault): string {
  switch (reason) {
    case 'full':
      return 'the disk is full; what was there is left as it was, so make room and run this again';
    case 'missing':
      return 'its folder does not exist; make the folder first';
    case 'blocked':
      return 'a file stands where its folder should be; name a place in a folder';
    case 'folder':
      return 'a folder or a file stands in its place; name another one';
    case 'device':
      return 'it is a pipe or a device; name a file';
    case 'denied':
      return 'the place or the file is read-only; name another one, or see its permissions';
    case 'long':
      return 'its name is too long; name a shorter one';
    case 'other':
      return `the system says ${system}; what was there is left as it was`;
  }
}

const outside = {
  absolute:
    "is an absolute path: raw files are named relative to the notebook's folder, so that the study runs on any machine. Name it so, and put a copy into the project folder if it lies elsewhere.",
  address: 'is an address: save the file in the project folder and name it there.',
  outside:
    'lies outside the project folder, and only files inside it are read, so that the study can be run again elsewhere: put a copy into the project folder and name that.',
  link: 'is a link or lies behind one, and this file system does not tell where it leads: put the file itself into the project folder.',
};

function missing(facts: Missing): string {
  if ('pattern' in facts) {
    const folder = `the notebook's folder${facts.folder === '' ? '' : ` ${facts.folder}`}`;
    return `No file matches "${facts.pattern}" in ${folder}.`;
  }
  const { path, near, missingFolder } = facts;
  if (missingFolder !== undefined) return `There is no file "${path}": its folder "${missingFolder}" does not exist.`;
  return near === undefined ? `There is no file "${path}".` : `There is no file "${path}": did you mean "${near}"?`;
}
