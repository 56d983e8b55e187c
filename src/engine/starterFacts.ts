import { unwatched } from '../readers/read.ts';
import { readChecked } from '../readers/readChecked.ts';
import type { Recording } from '../readers/recording.ts';
import type { Files } from '../values/ports.ts';
import { nothingKnown, type StarterFacts } from './starter.ts';
import { groupsOf } from './starterGroups.ts';

/** A recording that is larger is not read for a first text. */
const most = 64 * 2 ** 20;

/** What the first recording of each of the two sets that are compared tells; what can't be read tells nothing. */
export async function starterFacts(paths: readonly string[], files: Files): Promise<StarterFacts> {
  const recordings: Recording[] = [];
  for (const { paths: set } of groupsOf(paths).slice(0, 2)) {
    const source = await files.open(set[0]);
    const read = source.size > most ? undefined : await readChecked(source, {}, unwatched);
    if (read?.ok === true) recordings.push(read.value);
  }
  if (recordings.length === 0) return nothingKnown;
  const rates = recordings.map(({ clock }) => clock.rate);
  const lengths = recordings.map(({ channels, clock }) => (channels.at(0)?.samples.length ?? 0) / clock.rate);
  return { channel: commonChannel(recordings), rate: Math.min(...rates), seconds: Math.min(...lengths) };
}

/** The vertical axis where every recording has one, else the last axis that all have, else their first channel. */
function commonChannel(recordings: readonly Recording[]): string | undefined {
  const [first, ...others] = recordings.map(({ channels }) => channels);
  const common = first.filter(({ name }) => others.every((channels) => channels.some((one) => one.name === name)));
  const axes = common.filter(({ axis }) => axis);
  return (common.find(({ name }) => name === 'z') ?? axes.at(-1) ?? common.at(0))?.name;
}
