import { folderOf } from '../../result/fileNames.ts';
import { counted } from '../../result/words.ts';
import type { Entry } from '../arrangement.ts';
import type { CheckedNotebook } from '../check.ts';
import type { Expecting } from './caret.ts';
import type { Offer } from './offer.ts';
import type { ChannelFacts, FolderEntry, Outside } from './outside.ts';
import { sourcesOf, takesFiles } from './source.ts';
import { quietly } from './typing.ts';
import { checkExpression } from '../expression.ts';

/** Endings of files that a logger or a program writes; others are offered after them. */
const readable = /\.(?:csv|tsv|txt|dat|log|json|wav|parquet|npy|mat|uff|unv|gz|zip)$/i;

/** Files and folders below what is written so far; with the quotes when none stand yet. */
export async function completeFiles(
  expecting: readonly Expecting[],
  written: string | undefined,
  outside: Outside,
): Promise<readonly Offer[]> {
  if (!expecting.some(takesFiles)) return [];
  const folder = folderOf(written ?? '');
  const entries = (await outside.list(folder)).filter(({ name }) => !name.startsWith('.'));
  const quote = (text: string, closed: boolean): string =>
    written === undefined ? `"${text}${closed ? '"' : ''}` : text;
  const offer = (label: string, rank: number, rest: Partial<Offer> & Pick<Offer, 'kind'>): Offer => ({
    label,
    rank,
    insert: quote(label, rest.kind === 'file'),
    ...rest,
  });
  const folders = entries
    .filter((entry) => entry.folder)
    .map(({ name }) => offer(`${folder}${name}/`, 2, { kind: 'folder', again: true }));
  const files = entries
    .filter((entry) => !entry.folder)
    .map(({ name }) => offer(folder + name, readable.test(name) ? 1 : 3, { kind: 'file' }));
  const globs = patternsFor(entries).map(({ pattern, count }) =>
    offer(folder + pattern, 0, { kind: 'file', detail: counted(count, 'file') }),
  );
  return [...globs, ...files, ...folders];
}

/** Patterns for files that differ in a number alone: `foam-1.csv`, `foam-2.csv` are `foam-*.csv`. */
function patternsFor(entries: readonly FolderEntry[]): readonly { pattern: string; count: number }[] {
  const counts = new Map<string, number>();
  for (const { name, folder } of entries) {
    const pattern = name.replace(/\d+(?=\D*$)/, '*');
    if (!folder && pattern !== name && readable.test(name)) counts.set(pattern, (counts.get(pattern) ?? 0) + 1);
  }
  return [...counts].filter(([, count]) => count > 1).map(([pattern, count]) => ({ pattern, count }));
}

/** Channels of the runs in question: as last run, else out of the file itself. */
export async function completeChannels(
  expecting: Expecting,
  notebook: CheckedNotebook,
  outside: Outside,
): Promise<readonly Offer[]> {
  const channels = await channelsFor(expecting, notebook, outside);
  return channels.map(({ name, header, unit }) => {
    const detail = [header, unit].filter((part) => part !== undefined && part !== name).join(', ');
    const plain = /^[\p{L}_][\p{L}\p{N}_]*$/u.test(name);
    return { label: name, kind: 'channel', rank: 0, insert: plain ? name : `"${name}"`, ...(detail ? { detail } : {}) };
  });
}

async function channelsFor(
  { arrangement, piped }: Expecting,
  notebook: CheckedNotebook,
  outside: Outside,
): Promise<readonly ChannelFacts[]> {
  const { form } = arrangement;
  const entries = arrangement.operands.get(form.operands.at(0)?.name ?? '') ?? [];
  const first = entries.at(0);
  const texts = entries.flatMap(({ node }) => (node.type === 'text' ? [node.text] : []));
  if (texts.length > 0) return outside.channels(texts[0]);
  const name = first?.node.type === 'word' ? first.node.text : undefined;
  const known = name === undefined ? undefined : outside.facts(name)?.channels;
  if (known) return known.map((channel) => ({ name: channel }));
  const pattern = (piped ? sourcesOf(piped.checked, notebook) : sourcesOfEntry(first, notebook)).at(0);
  return pattern === undefined ? [] : outside.channels(pattern);
}

function sourcesOfEntry(entry: Entry | undefined, notebook: CheckedNotebook): readonly string[] {
  if (!entry || ['range', 'assigned', 'unit', 'stray'].includes(entry.node.type)) return [];
  const typed = checkExpression(entry.node as Parameters<typeof checkExpression>[0], quietly(notebook, ''));
  return sourcesOf(typed.checked, notebook);
}
