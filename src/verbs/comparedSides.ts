import { option, operand } from './given.ts';
import { whyNoFrequencies } from './orderAxis.ts';
import { extent, whyUneven } from './runs.ts';
import { spectrumOf, whyTooShort } from './spectrum.ts';
import type { Run, SpectrumValue } from './values.ts';
import { refuse, type Failure, type Given, type Warning, type Watch } from './verb.ts';
import { windowOf } from './window.ts';

/** One side of a comparison: one channel of each run. */
export interface Side {
  readonly name: string;
  readonly runs: readonly Run[];
  readonly channel: string;
  readonly spectrum: SpectrumValue;
}

type Refused = { readonly ok: false; readonly failure: Failure };

/** Both sides of a comparison, and what differs between them that should not. */
export function comparedSides(
  given: Given,
  watch: Watch,
): { readonly a: Side; readonly b: Side; readonly warnings: Warning[] } | Refused {
  const a = sideOf(given, 'a', 'A', watch);
  if ('failure' in a) return a;
  const b = sideOf(given, 'b', 'B', watch);
  if ('failure' in b) return b;
  const [unitA, unitB] = [a, b].map(({ spectrum }) => spectrum.entries[0].channel.unit.symbol);
  if (unitA !== unitB)
    return refuse('unit.mixed', `${a.name} is in ${unitA} and ${b.name} in ${unitB}: load both in one unit.`, 'b');
  if (a.channel !== b.channel)
    return refuse(
      'channel.mixed',
      `${a.name} is of channel ${a.channel} and ${b.name} of ${b.channel}: compare like with like.`,
      'b',
    );
  const shared = a.runs.find((run) =>
    b.runs.some((other) => other.file.sha256 === run.file.sha256 && other.start === run.start),
  );
  if (shared !== undefined)
    return refuse('compare.same', `${shared.label} stands on both sides: a run can't be evidence against itself.`, 'b');
  return { a, b, warnings: differences(a, b) };
}

function sideOf(given: Given, name: 'a' | 'b', fallback: string, watch: Watch): Side | Refused {
  const argument = operand(given, name);
  if (argument?.type !== 'value' || (argument.value.kind !== 'runs' && argument.value.kind !== 'spectrum')) {
    return refuse('operand.kind', 'Only runs or their spectra can be compared.', name);
  }
  const { value } = argument;
  const called = value.set ?? argument.name ?? fallback;
  if (value.kind === 'spectrum') {
    const orders = whyNoFrequencies(value, name);
    if (orders !== undefined) return orders;
    const runs = value.entries.map(({ run }) => run);
    const channels = [...new Set(value.entries.map(({ channel }) => channel.name))];
    if (channels.length > 1) return manyChannels(called, channels, name);
    return { name: called, runs, channel: channels[0], spectrum: value };
  }
  const uneven = whyUneven(value);
  if (uneven !== undefined) return uneven;
  const channels = [...new Set(value.runs.flatMap((run) => run.channels.map((channel) => channel.name)))];
  if (channels.length > 1) return manyChannels(called, channels, name);
  const window = windowOf(option(given, 'using'));
  const short = value.runs.map((run) => whyTooShort(run, window)).find((why) => why !== undefined);
  if (short !== undefined) return refuse('window.long', short, name);
  const [spectrum] = spectrumOf(value, window, 'psd', 0.95, watch);
  return { name: called, runs: value.runs, channel: channels[0], spectrum };
}

function manyChannels(called: string, channels: readonly string[], at: string): Refused {
  return refuse(
    'channel.many',
    `${called} has the channels ${channels.join(', ')}: choose one to compare, as in "channel ${called} ${channels[channels.length - 1]}", or take the resultant.`,
    at,
  );
}

/** Thresholds beyond which two sides were not measured alike (engineering choices). */
const durationsDiffer = 0.1;
const ratesDiffer = 0.005;

function differences(a: Side, b: Side): Warning[] {
  const warnings: Warning[] = [];
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [lengthA, lengthB] = [a, b].map(({ runs }) => mean(runs.map(extent)));
  if (Math.abs(lengthA / lengthB - 1) > durationsDiffer) {
    warnings.push({
      code: 'compare.durations',
      message: `The runs of ${a.name} last ${lengthA.toFixed(1)} s on average and those of ${b.name} ${lengthB.toFixed(1)} s: trim both to the same stretch.`,
    });
  }
  const [rateA, rateB] = [a, b].map(({ runs }) => mean(runs.map(({ rate }) => rate)));
  if (Math.abs(rateA / rateB - 1) > ratesDiffer) {
    warnings.push({
      code: 'compare.rates',
      message: `${a.name} was sampled at ${rateA.toFixed(1)} Hz and ${b.name} at ${rateB.toFixed(1)} Hz: keep bands below 0.4 of the lower rate.`,
    });
  }
  const windows = [a, b].map(({ spectrum: { window } }) => `${window.shape} ${window.length} s`);
  if (windows[0] !== windows[1])
    warnings.push({
      code: 'compare.windows',
      message: `The spectra were made with different windows (${windows.join(', ')}): use one for both.`,
    });
  for (const run of [...a.runs, ...b.runs]) {
    for (const { severity, message } of run.findings)
      if (severity === 'fault') warnings.push({ code: 'compare.fault', message: `${run.label}: ${message}` });
  }
  return warnings;
}
