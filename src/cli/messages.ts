import { counted, listed } from '../result/words.ts';
import { messages } from '../result/messages.ts';

interface Facts {
  'command.unknown': { name: string; commands: readonly string[] };
  memory: object;
  fault: { reason: string };
  'usage.options': { reason: string };
  'usage.notebook': { article: 'a' | 'one'; purpose: string };
  'usage.files': object;
  'usage.new': object;
  'usage.sheet': object;
  'usage.out': { what: 'figures' | 'tables' };
  'usage.format': { what: 'figures' | 'tables'; given: string; known: readonly string[] };
  'usage.cell': { given: string };
  'usage.jobs': { given: string; most: number };
  'usage.cache': { given: string };
  'usage.keep': { given: string };
  'usage.days': { given: string };
  'usage.shares': object;
  'usage.plan': { given: string; most: number };
  'usage.share': { given: string };
  'usage.whole': object;
  'share.plan': { notebook: string; folder: string; planned: number | undefined; asked: number | undefined };
  'share.store': object;
  'share.changed': { path: string };
  /** `share` is undefined of a recording that is in none. */
  'share.missing': { share: number | undefined; of: number; path: string; others: number };
  'cache.trouble': { folder: string; reason: string };
  'cache.stuck': { folder: string; reason: string };
  'cache.unlisted': { folder: string; reason: string };
  'usage.decimal': object;
  'usage.unit': { given: string };
  'usage.rate': { given: string };
  'usage.skip': object;
  'usage.scale': object;
  'usage.sentinel': { given: string };
  'usage.comment': object;
  'usage.clock': object;
  'notebook.missing': { path: string };
  'notebook.folder': { path: string };
  'notebook.special': { path: string };
  'notebook.outside': { path: string; root: string };
  'notebook.unreadable': { path: string; line: number; reason: string };
  'notebook.cell': { path: string; cells: number; cell: number };
  'folder.missing': { folder: string };
  'file.missing': { path: string };
  'file.special': { path: string };
  'new.recordings': { folder: string };
  'record.missing': { notebook: string; record: string };
  'record.unreadable': { record: string; reason: string };
  'sheet.recordings': { folder: string };
  'sheet.conditions': { readonly most: number };
  'sheet.runs': object;
  'sheet.detect': object;
  'sheet.spread': object;
  'sheet.power': { detect: number; spread: number };
}

/** What the commands say of wrong use; below codes that begin with `usage.` it is told where the usage stands. */
export const { refuse, tell } = messages<Facts>({
  'command.unknown': ({ name, commands }) => `there is no command "${name}"; there is ${commands.join(', ')}.`,
  memory: () => 'the memory of this machine ran out: close what else is open, or give fewer or shorter files.',
  fault: ({ reason }) => `this is a fault of the program: ${reason}`,
  'usage.options': ({ reason }) => reason,
  'usage.notebook': ({ article, purpose }) => `name ${article} notebook ${purpose}.`,
  'usage.new': () =>
    'name one folder, in which the study is to lie: beside the folder of its recordings, or with them.',
  'usage.files': () => 'name a file to look at.',
  'usage.sheet': () => 'name a folder of recordings, or say how many runs are planned.',
  'usage.out': ({ what }) => `say with --out DIR where the ${what} go.`,
  'usage.format': ({ what, given, known }) => `${what} are written as ${listed(known)}, not as "${given}".`,
  'usage.cell': ({ given }) => `--cell takes a whole number, not "${given}".`,
  'usage.jobs': ({ given, most }) => `--jobs takes a whole number from 1 to ${most}, not "${given}".`,
  'usage.cache': ({ given }) => `cache takes no "${given}".`,
  'usage.keep': ({ given }) => `--keep takes a size, as in 500MB or 20GB, not "${given}".`,
  'usage.days': ({ given }) => `--days takes a whole number, not "${given}".`,
  'usage.shares': () => '--plan, --share and --collect go one at a time.',
  'usage.plan': ({ given, most }) => `--plan takes the number of shares, from 1 to ${most}, not "${given}".`,
  'usage.share': ({ given }) => `--share takes which share of how many, as in 3/8, not "${given}".`,
  'usage.whole': () => 'shares are of the whole notebook and of what is kept: leave out --cell and --no-cache.',
  'share.plan': ({ notebook, folder, planned, asked }) =>
    planned === undefined || asked === undefined
      ? `no plan of ${notebook} lies in ${folder}: run it with --plan N first.`
      : `${notebook} was planned in ${counted(planned, 'share')}, not ${asked}: run it with --plan ${asked}, or name one of those.`,
  'share.store': () => 'shares need what was built, for programs run from their sources keep nothing.',
  'share.changed': ({ path }) =>
    `${path} was written since the shares were planned, as its size or its time of change tells: run --plan again.`,
  'share.missing': ({ share, of, path, others }) => {
    const more = others === 0 ? '' : ` and ${counted(others, 'other', 'others')}`;
    return share === undefined
      ? `no share holds ${path}${more}: run --plan again, then the shares.`
      : `share ${share}/${of} is missing: nothing is kept of ${path}${more}.`;
  },
  'cache.stuck': ({ folder, reason }) =>
    `not all that was to go could be removed from ${folder} (${reason}): remove it by hand, or as the user who kept it.`,
  'cache.unlisted': ({ folder, reason }) =>
    `what is kept in ${folder} can't be listed (${reason}): ask as the user who kept it.`,
  'cache.trouble': ({ folder, reason }) =>
    `results could not be kept in ${folder} (${reason}): they are the same, and will be computed again.`,
  'usage.decimal': () => '--decimal is "." or ",".',
  'usage.unit': ({ given }) => `--unit "${given}" is no known unit.`,
  'usage.rate': ({ given }) => `--rate takes a frequency, such as "400 Hz", not "${given}".`,
  'usage.skip': () => '--skip takes a whole number of lines.',
  'usage.scale': () => '--scale takes a number.',
  'usage.sentinel': ({ given }) => `--sentinel takes numbers with commas between, as in "9999,-1", not "${given}".`,
  'usage.comment': () => '--comment takes "none": lines with a mark of comments are rows as well.',
  'usage.clock': () => '--clock is "hh:mm" or "mm:ss".',
  'notebook.missing': ({ path }) => `there is no notebook ${path}.`,
  'notebook.folder': ({ path }) => `${path} is a folder, not a notebook.`,
  'notebook.special': ({ path }) => `${path} is a pipe or a device, not a notebook.`,
  'notebook.outside': ({ path, root }) => `${path} does not lie in the project folder ${root}.`,
  'notebook.unreadable': ({ path, line, reason }) => `${path}, line ${line}: ${reason}`,
  'notebook.cell': ({ path, cells, cell }) =>
    `${path} has ${counted(cells, 'cell')}, counted from 1: there is no cell ${cell}.`,
  'folder.missing': ({ folder }) => `there is no folder ${folder}.`,
  'file.missing': ({ path }) => `there is no file ${path}.`,
  'file.special': ({ path }) => `${path} is a pipe or a device, not a recording: save it as a file.`,
  'new.recordings': ({ folder }) => `no recordings lie in ${folder}: put their names into the notebook.`,
  'record.missing': ({ notebook, record }) =>
    `${notebook} has no record ${record}: write one with "washboard record ${notebook}".`,
  'record.unreadable': ({ record, reason }) => `${record}: ${reason}`,
  'sheet.recordings': ({ folder }) => `no recordings lie in ${folder}.`,
  'sheet.conditions': ({ most }) => `--conditions takes two names or more, up to ${most}, as in "foam,gel".`,
  'sheet.runs': () => '--runs takes a whole number from 1 to 100.',
  'sheet.detect': () => '--detect takes a percentage, such as 5.',
  'sheet.spread': () => '--detect needs --spread, the scatter from run to run in percent, such as 4.',
  'sheet.power': ({ detect, spread }) =>
    `a reduction of ${detect} % in a scatter of ${spread} % would need more runs than can be reckoned with.`,
});
