import { canBeWritten, filesText } from './filesText.ts';
import { groupsOf, type Group } from './starterGroups.ts';
import { visibleLine } from '../result/visible.ts';

/** What the recordings told that a study may begin from. */
export interface StarterFacts {
  /** The channel to be judged. */
  readonly channel: string | undefined;
  /** Samples a second, in Hz. */
  readonly rate: number | undefined;
  /** Of the shortest recording that was looked at, in s. */
  readonly seconds: number | undefined;
}

export const nothingKnown: StarterFacts = { channel: undefined, rate: undefined, seconds: undefined };

/**
 * The text of a notebook that begins a study of these files: the whole way from the question to the claim as cells to be
 * filled in, each set of runs loaded. Without files, names stand in their place. A file whose name no text of the language can
 * hold, or that would not be read as it stands there, is named as left out.
 *
 * @param paths relative to the notebook's folder, with `/`
 * @param besides all files of their folders, so that no pattern takes in more than was chosen
 */
export function starterNotebook(
  paths: readonly string[],
  besides: readonly string[],
  facts: StarterFacts = nothingKnown,
): string {
  const groups = groupsOf(paths.filter(canBeWritten));
  const loaded = groups.map(({ name, paths: files }) => loadCell(name, files.length, filesText(files, besides)));
  const sets = [...groups.map(({ name }) => name), ...missing(groups)];
  const loads = [...loaded, ...missing(groups).map((name) => loadCell(name, 0, `"raw/${name}-*.csv"`))];
  return `${[
    question(facts),
    `## The runs\n\n${loads.join('\n\n')}`,
    leftOut(paths.filter((path) => !canBeWritten(path))),
    soundness(sets),
    comparison(sets[0], sets[1], facts),
    sets.length > 2
      ? `${sets.slice(2).join(', ')} ${sets.length > 3 ? 'are' : 'is'} loaded too: \`compare a with b, c\` holds several sets against one.`
      : '',
    '## What was not tested\n\nThis machine, this load, this surface, this speed: say which others the answer does not reach.',
  ]
    .filter((part) => part !== '')
    .join('\n\n')}\n`;
}

function leftOut(paths: readonly string[]): string {
  if (paths.length === 0) return '';
  // A code span of two marks, since a name may hold one.
  const names = paths.map((path) => `- \`\` ${visibleLine(path)} \`\``).join('\n');
  return `Not loaded, since a notebook can't write names with quotes, backslashes, line ends, control characters or marks that turn the
writing around; give these files plain names, then load them:

${names}`;
}

const cell = (...lines: readonly string[]): string => ['```washboard', ...lines, '```'].join('\n');

/** The sets that a comparison lacks. */
const missing = (groups: readonly Group[]): readonly string[] =>
  groups.length > 1
    ? []
    : groups.length === 1
      ? [groups[0].name === 'after' ? 'before' : 'after']
      : ['before', 'after'];

const loadCell = (name: string, files: number, list: string): string =>
  cell(
    `# ${name.replaceAll('_', ' ')}: ${files === 0 ? 'name its recordings' : files === 1 ? '1 run' : `${files} runs`}`,
    `${name} = load ${list}`,
  );

/** Bands in Hz that recordings of this rate can tell: the one that decides, and the others. */
function bandsAt(rate = 400): { readonly primary: string; readonly others: readonly string[] } {
  if (rate >= 250) return { primary: '10..50', others: ['4..10', '50..100'] };
  if (rate >= 125) return { primary: '10..50', others: ['4..10'] };
  const top = Number((0.4 * rate).toPrecision(1));
  return { primary: `${Number((top / 5).toPrecision(2))}..${top}`, others: [] };
}

function question({ channel, rate }: StarterFacts): string {
  const { primary, others } = bandsAt(rate);
  const over = others.length === 0 ? '' : ` over ${others.map((band) => `${band} Hz`).join(', ')},`;
  return `# A new study

## The question

What was changed, what should it do, on which axis, in which frequency band, and by how much? Write it down before you look at a
spectrum. Every result is then held against this plan, and says where it departs from it:

${cell(
  '# The plan: the band that decides, the others, the claim and whose it is',
  `study_plan = plan "Does the change lower vibration?"${channel === undefined ? '' : ` channel ${channelText(channel)}`} metric rms,`,
  `  primary ${primary} Hz${over === '' ? ',' : over}`,
  '  claim reduction 10 % source "whose claim it is" repeats 4',
)}

How many runs of each does that take? Put in by how much runs of the same kind have scattered:

${cell('# Runs of each that a reduction of 10 % asks for', 'repeats detect 10 % spread 5 %')}`;
}

/** A channel's name as the language writes it: anything but a plain word in quotes. */
const channelText = (name: string): string => (/^[A-Za-z]\w*$/.test(name) ? name : `"${name}"`);

const soundness = (sets: readonly string[]): string => `## Are the recordings sound?

${cell('# What a careful look at the recordings finds', ...sets.map((name) => `check ${name}`))}

${cell('# Where the steady part begins and ends', ...sets.map((name) => `plot ${name}`))}`;

function comparison(before: string, after: string, { channel, rate, seconds }: StarterFacts): string {
  const { primary, others } = bandsAt(rate);
  const upper = Math.max(...[primary, ...others].map((band) => Number(band.split('..')[1])));
  const only = channel === undefined ? '' : ` | channel ${channelText(channel)}`;
  const stretch = stretchOf(seconds);
  return `## The same stretch of each run

${cell(
  '# Put in where every run is at its pace',
  `${before}_part = ${before}${only} | trim ${stretch}`,
  `${after}_part = ${after}${only} | trim ${stretch}`,
)}

## Spectra

${cell(
  '# Densities before and after',
  `${before}_density = spectrum ${before}_part`,
  `${after}_density = spectrum ${after}_part`,
  `plot ${before}_density, ${after}_density over 1..${upper} Hz scale log`,
)}

## What changed

${cell('# The change in each band, by the plan', `change = compare ${before}_density with ${after}_density plan study_plan`)}

## The claim

${cell('# The claim of the plan, against what was found', 'claim change')}`;
}

/** The middle of the recording, in round seconds; ends are often the starting and the stopping. */
function stretchOf(seconds = 70): string {
  const digits = seconds >= 10 ? 0 : 2;
  return `${(0.1 * seconds).toFixed(digits)}..${(0.9 * seconds).toFixed(digits)} s`;
}
