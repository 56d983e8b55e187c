import { messages } from '../result/messages.ts';

type Missing =
  | { readonly path: string; readonly near?: string; readonly missingFolder?: string }
  /** `folder` is the notebook's, relative to the project. */
  | { readonly pattern: string; readonly folder: string };

interface Facts {
  'file.outside': { path: string; how: 'absolute' | 'address' | 'outside' };
  'file.folder': { path: string };
  'file.missing': Missing;
}

/** Why a file of the project cannot be read. */
export const { refuse } = messages<Facts>({
  'file.outside': ({ path, how }) => `"${path}" ${outside[how]}`,
  'file.folder': ({ path }) => `"${path}" is a folder: name its files, as in "${path.replace(/\/$/, '')}/*.csv".`,
  'file.missing': missing,
});

const outside = {
  absolute:
    "is an absolute path: raw files are named relative to the notebook's folder, so that the study runs on any machine.",
  address: 'is an address: raw files must lie in the project folder.',
  outside:
    'lies outside the project folder: only files inside it may be read, so that the study can be run again elsewhere.',
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
