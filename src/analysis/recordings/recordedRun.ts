import { converterStep } from '../../readers/checks/checked.ts';
import { findChannel } from '../../readers/findChannel.ts';
import { takenChannels } from '../../readers/takenChannels.ts';
import type { Outline, ReadOptions, Recording, RecordedChannel } from '../../readers/recording.ts';
import { success, type Result } from '../../result/result.ts';
import { parseUnit, unit as unitNamed } from '../../units/parse.ts';
import type { Channel, RawFile, Run } from '../../values/run.ts';
import { refuse } from '../messages/recordings.ts';

/** What is asked of a recording that has been read. */
interface Reading {
  readonly channels: readonly string[];
  readonly reading: ReadOptions;
}

/**
 * The run of a recording: the channels asked for, each in a settled unit, on the recording's clock: its samples
 * are those that were logged. Refuses a channel that is
 * not there, and one whose unit nothing settles.
 */
export function runOf(recording: Recording, file: RawFile, label: string, asked: Reading): Result<Run> {
  const chosen = chosenChannels(recording, asked, label);
  if (!chosen.ok) return chosen;
  const channels: Channel[] = [];
  for (const read of chosen.value) {
    const isTacho = asked.reading.tacho !== undefined && read === findChannel(chosen.value, asked.reading.tacho);
    const channel = isTacho
      ? success(inPlainNumbers(read))
      : inItsUnit(byOption(read, asked.reading), recording, file, asked.reading);
    if (!channel.ok) return channel;
    channels.push(channel.value);
  }
  // Gravity was judged by all axes, whichever of them are taken.
  const { clock, layout, findings } = recording;
  const run: Run = {
    label,
    file,
    rate: clock.rate,
    channels,
    stretches: clock.stretches,
    start: 0,
    history: [],
    findings,
    layout,
    ...(clock.epoch === undefined ? {} : { epoch: clock.epoch }),
    ...longOf(recording, asked),
    ...(clock.times === undefined ? {} : { stamps: { times: clock.times, jitter: clock.jitter } }),
  };
  return success(run);
}

function longOf({ long }: Recording, { channels, reading }: Reading): Pick<Run, 'long'> {
  if (long === undefined) return {};
  return { long: { recording: long, reading, channels, from: 0, to: long.rows } };
}

function chosenChannels(
  recording: Recording,
  { channels: asked, reading: { tacho } }: Reading,
  run: string,
): Result<readonly RecordedChannel[]> {
  const { channels } = recording;
  const isMissing = (name: string): boolean => findChannel(channels, name) === undefined;
  const unknown = [...asked, ...(tacho === undefined ? [] : [tacho])].find(isMissing);
  if (unknown === undefined) return success(takenChannels(recording, asked, tacho));
  const known = channels.map((one) => one.name);
  return refuse('channel.unknown', { run, channel: unknown, known }, unknown === tacho ? 'tacho' : 'channel');
}

/** A channel whose pulses are counted: how high they are does not matter. */
const inPlainNumbers = ({ name, header, samples, outline }: RecordedChannel): Channel => ({
  name,
  ...(header === undefined ? {} : { header }),
  unit: unitNamed(''),
  unitFrom: origins.option,
  samples,
  ...(outline === undefined ? {} : { outline }),
  includesStatic: true,
});

/**
 * A channel with the unit of the option where the file settles none. The reader applies the option to the axes of
 * acceleration; a column that is none has been named by hand, and then the option is meant for it.
 */
function byOption(read: RecordedChannel, { unit, scale }: ReadOptions): RecordedChannel {
  if (read.unit !== undefined || unit === undefined) return read;
  const samples = scale === undefined ? read.samples : read.samples.map((value) => value * scale);
  if (read.outline !== undefined) return { ...read, unit, unitFrom: 'option', ...scaled(read, read.outline, scale) };
  return {
    ...read,
    unit,
    unitFrom: 'option',
    samples,
    ...(scale === undefined
      ? {}
      : { step: read.step === undefined ? converterStep(samples) : Math.abs(scale) * read.step }),
  };
}

/** Of a recording that is too large for memory. */
function scaled({ step }: RecordedChannel, { low, high, ...outline }: Outline, scale = 1): Partial<RecordedChannel> {
  const [a, b] = [low, high].map((values) => values.map((value) => value * scale));
  return {
    outline: { ...outline, low: scale < 0 ? b : a, high: scale < 0 ? a : b },
    ...(step === undefined ? {} : { step: Math.abs(scale) * step }),
  };
}

const origins = {
  option: 'the option',
  header: 'the header',
  'mean vector': 'the length of the mean vector',
  none: 'nothing',
} as const;

function inItsUnit(
  { name, header, unit, unitFrom, samples, step, outline }: RecordedChannel,
  { findings }: Recording,
  { path }: RawFile,
  stated: ReadOptions,
): Result<Channel> {
  const parsed = unit === undefined ? undefined : parseUnit(unit);
  if (parsed?.ok !== true) {
    // The reader may know more of why, and which option with which figure settles it.
    const finding = unit === undefined ? findings.find(({ code }) => code === 'unit-unsettled')?.message : undefined;
    const facts = { path, channel: name, unit, finding };
    return refuse('unit.unsettled', facts, stated.unit === undefined ? 'files' : 'unit');
  }
  return success({
    name,
    ...(header === undefined ? {} : { header }),
    unit: parsed.unit,
    unitFrom: origins[unitFrom],
    samples,
    ...(outline === undefined ? {} : { outline }),
    written: { step: step ?? converterStep(samples), unit: parsed.unit.symbol },
    includesStatic: true,
  });
}
