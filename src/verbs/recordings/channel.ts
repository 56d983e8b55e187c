import { type Verb, answer } from '../verb.ts';
import { refuse } from '../../result/result.ts';
import { operand, textOf, valueOf } from '../arguments.ts';
import type { Channel, Run } from '../../values/run.ts';

export const channel: Verb = {
  passesFaults: true,
  form: {
    verb: 'channel',
    summary: 'Takes one channel of each run.',
    help: 'A recognised axis of acceleration is called `x`, `y` or `z` whatever its header spells; the header itself, in quotes or as a word, is understood too.',
    operands: [
      { name: 'runs', doc: 'The runs to take it from.', accepts: [{ type: 'value', kinds: ['runs'] }] },
      { name: 'channel', doc: 'Its name, or its header in quotes.', accepts: [{ type: 'channel' }], many: true },
    ],
    options: [],
    gives: 'runs',
    examples: ['foam = load "raw/brick-foam-*.csv.gz"\nchannel foam z'],
  },
  evaluate(given) {
    const runs = valueOf(given, 'runs', 'runs');
    const wanted = given.operands.channel.map((argument) => textOf(argument) ?? '');
    const kept: Run[] = [];
    for (const run of runs.runs) {
      const channels: Channel[] = [];
      for (const name of wanted) {
        const found = findChannel(run.channels, name);
        if (found === undefined) return refuse('channel.unknown', noChannel(run, name), 'channel');
        if (!channels.includes(found)) channels.push(found);
      }
      kept.push({ ...run, channels });
    }
    return answer({ ...runs, runs: kept });
  },
};

/** The channel of this name, else the one whose header is this text or begins with this word. */
export function findChannel<T extends { readonly name: string; readonly header?: string | undefined }>(
  channels: readonly T[],
  name: string,
): T | undefined {
  const bare = (header: string): string => header.replace(/[\s_]*[([].*$/, '').trim();
  return (
    channels.find((one) => one.name === name) ??
    channels.find((one) => one.header?.trim() === name.trim()) ??
    channels.find((one) => one.header !== undefined && bare(one.header) === name) ??
    channels.find((one) => one.header !== undefined && one.header.toLowerCase().startsWith(`${name.toLowerCase()}_`))
  );
}

function noChannel(run: Run, name: string): string {
  const names = run.channels.map((one) => one.name);
  const list =
    names.length === 1 ? `only ${names[0]}` : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
  return `${run.label} has no channel ${name}: it has ${list}.`;
}

export const channelOperand = (given: Parameters<Verb['evaluate']>[0], name: string): string | undefined =>
  textOf(operand(given, name));
