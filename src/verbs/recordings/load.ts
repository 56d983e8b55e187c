import type { Finding, ReadOptions, Recording } from '../../readers/recording.ts';
import { readChecked } from '../../readers/readChecked.ts';
import { parseUnit } from '../../units/parse.ts';
import { findChannel } from './channel.ts';
import { hasFlag, option, siOf, textOf, unitOf } from '../arguments.ts';
import { excludedRun, excludedWarnings } from '../excludedRuns.ts';
import { settleClock } from '../../analysis/recordings/settleClock.ts';
import { chosenFiles, type ChosenFile } from './sheetChoice.ts';
import type { Channel, RawFile, Run } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { ExcludedRun } from '../../values/excluded.ts';
import { answer, type Context, type Arguments, type Verb } from '../verb.ts';
import { refuse, type Failure, type Warning, type Result } from '../../result/result.ts';
import type { Files } from '../../values/ports.ts';

export const load: Verb = {
  form: {
    verb: 'load',
    summary: 'Reads recordings from a logger’s files.',
    help: 'Paths are relative to the notebook’s folder; `*` and `?` stand for any characters, and files come in natural name order. Layout, time column, rate, unit and axes are detected and reported; each option overrides one detection. Without `channel`, all recognised axes are taken, else every numeric column but the time. A run sheet (`sheet "runs.csv"`, a CSV file with the columns file, condition, order, date, speed, mass, pressure, note, excluded, why) tells what each recording is: with files it is held beside them, without files it lists them; `where` chooses among its rows. Runs that it excludes are left out and listed with every result. Nothing is ever written to a raw file.',
    operands: [
      {
        name: 'files',
        doc: 'Files or patterns, in quotes.',
        accepts: [{ type: 'text', role: 'files' }],
        many: true,
        optional: true,
      },
    ],
    options: [
      {
        keyword: 'channel',
        doc: 'Take only these channels.',
        accepts: [{ type: 'channel', assigned: true }],
        many: true,
      },
      {
        keyword: 'channels',
        doc: 'Name channels by hand: `x="sensor 2"`.',
        accepts: [{ type: 'channel', assigned: true }],
        many: true,
      },
      { keyword: 'time', doc: 'Header of the time column.', accepts: [{ type: 'text', role: 'column' }] },
      {
        keyword: 'unit',
        doc: 'Unit of the samples.',
        accepts: [{ type: 'unit', dimension: 'any' }],
        default: 'from the header or the mean vector',
      },
      {
        keyword: 'rate',
        doc: 'Samples a second, when no time column says it.',
        accepts: [{ type: 'quantity', dimension: 'frequency', above: 0 }],
      },
      {
        keyword: 'sheet',
        doc: 'The run sheet: it lists the recordings, or tells of those that are named.',
        accepts: [{ type: 'text', role: 'files' }],
      },
      {
        keyword: 'where',
        doc: 'Take only these rows of the run sheet: `condition foam, surface brick`.',
        accepts: [{ type: 'channel' }],
        many: true,
      },
      {
        keyword: 'including',
        doc: 'Take in the runs that the sheet excludes, too.',
        accepts: [{ type: 'word', words: ['excluded'] }],
      },
      { keyword: 'label', doc: 'What the set is called in legends.', accepts: [{ type: 'text', role: 'label' }] },
      { keyword: 'delimiter', doc: 'What stands between the columns.', accepts: [{ type: 'text' }] },
      { keyword: 'decimal', doc: 'The decimal mark.', accepts: [{ type: 'text' }] },
      { keyword: 'skip', doc: 'Lines to pass over at the top.', accepts: [{ type: 'integer', least: 0 }] },
      { keyword: 'scale', doc: 'Size of one count, in `unit`.', accepts: [{ type: 'number' }] },
      { keyword: 'sensor', doc: 'Which sensor of a file that interleaves several.', accepts: [{ type: 'text' }] },
      { keyword: 'timezone', doc: 'Offset from UTC of clock stamps, such as `+02:00`.', accepts: [{ type: 'text' }] },
    ],
    gives: 'runs',
    examples: [
      'load "raw/brick-foam-*.csv.gz" channel z label "foam"',
      'load sheet "raw/runs.csv" where condition foam, surface brick',
    ],
  },

  async sources(given: Arguments, files: Files): Promise<Result<readonly string[]>> {
    const choice = await chosenFiles(given, files);
    if ('failure' in choice) return choice;
    const sheet = choice.sheet === undefined ? [] : [choice.sheet];
    return { ok: true, value: [...sheet, ...choice.files.map(({ path }) => path)] };
  },

  async evaluate(given, context) {
    const options = readOptions(given);
    if ('failure' in options) return options;
    const choice = await chosenFiles(given, context.files);
    if ('failure' in choice) return choice;
    const warnings: Warning[] = [...choice.warnings];
    const runs: Run[] = [];
    const label = textOf(option(given, 'label'));
    const labels = labelsOf(
      choice.files.map(({ path }) => path),
      label,
    );
    const including = hasFlag(given, 'including');
    const excluded: ExcludedRun[] = choice.lost.map((one) => excludedRun(one, bareName(one.path), undefined));
    for (const [index, file] of choice.files.entries()) {
      const leftOut = file.excluded !== undefined && !including;
      const run = await readRun(file, labels[index], given, options.value, context, index / choice.files.length);
      if (leftOut) {
        excluded.push(excludedRun(file, labels[index], run));
        continue;
      }
      if ('failure' in run) return run;
      runs.push(run);
      const told = run.findings.filter(({ severity }) => severity !== 'note');
      warnings.push(...told.map((finding) => asWarning(labels[index], finding)));
    }
    const value: RunsValue = { kind: 'runs', set: label, runs, ...(excluded.length === 0 ? {} : { excluded }) };
    return answer(value, [...warnings, ...excludedWarnings(excluded)]);
  },
};

/** One file's run, with what the sheet says of it. */
async function readRun(
  { path, facts }: ChosenFile,
  label: string,
  given: Arguments,
  options: ReadOptions,
  context: Context,
  done: number,
): Promise<Run | { ok: false; failure: Failure }> {
  const recording = await readOne(path, options, context, done);
  if ('failure' in recording) return recording;
  const file: RawFile = { path, ...(await context.files.identify(path)) };
  const found = runOf(recording, file, label, given);
  if ('failure' in found) return found;
  return facts === undefined ? found.run : { ...found.run, sheet: facts };
}

const asWarning = (label: string, { code, message }: Finding): Warning => ({
  code,
  message: message.startsWith(label) ? message : `${label}: ${message}`,
});

async function readOne(
  path: string,
  options: ReadOptions,
  { files, watch }: Context,
  done: number,
): Promise<Recording | { ok: false; failure: Failure }> {
  const source = await files.open(path);
  const found = await readChecked(source, options, {
    cancelled: watch.cancelled,
    progress: (fraction) => watch.progress(done + fraction * (1 - done), `reading ${path}`),
  });
  return found.ok ? found.value : { ok: false, failure: { ...found.failure, at: 'files' } };
}

function readOptions(given: Arguments): { value: ReadOptions } | { ok: false; failure: Failure } {
  const decimal = textOf(option(given, 'decimal'));
  if (decimal !== undefined && decimal !== '.' && decimal !== ',')
    return refuse('option.value', 'The decimal mark is "." or ",".', 'decimal');
  const rate = siOf(given, 'rate');
  const entries = {
    time: textOf(option(given, 'time')),
    unit: unitOf(option(given, 'unit'))?.symbol,
    rate,
    delimiter: textOf(option(given, 'delimiter'))?.replace('\\t', '\t'),
    decimal,
    skip: siOf(given, 'skip'),
    scale: siOf(given, 'scale'),
    sensor: textOf(option(given, 'sensor')),
    timezone: textOf(option(given, 'timezone')),
    channels: namedByHand(given),
  };
  return {
    value: Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined)) as ReadOptions,
  };
}

function namedByHand(given: Arguments): Record<string, string> | undefined {
  const pairs = [...(given.options.channels ?? []), ...(given.options.channel ?? [])].flatMap((argument) =>
    argument.type === 'word' && argument.text !== undefined ? [[argument.word, argument.text] as const] : [],
  );
  return pairs.length === 0 ? undefined : Object.fromEntries(pairs);
}

/** Run labels: the files' names without endings, told apart by their folders where they are the same. */
function labelsOf(paths: readonly string[], label: string | undefined): string[] {
  if (label !== undefined && paths.length === 1) return [label];
  const names = paths.map(bareName);
  return names.map((name, index) => (names.filter((other) => other === name).length > 1 ? paths[index] : name));
}

/** A file's name without folder and endings. */
const bareName = (path: string): string => (path.split('/').pop() ?? path).replace(/(\.[A-Za-z0-9]{1,8}){1,2}$/, '');

function runOf(
  recording: Recording,
  file: RawFile,
  label: string,
  given: Arguments,
): { run: Run } | { ok: false; failure: Failure } {
  const chosen = chosenChannels(recording, given, label);
  if ('failure' in chosen) return chosen;
  const channels: Channel[] = [];
  for (const read of chosen) {
    const { name, header, unit, unitFrom, samples } = byOption(read, given);
    const parsed = unit === undefined ? undefined : parseUnit(unit);
    if (parsed?.ok !== true) {
      return refuse(
        'unit.unsettled',
        whyNoUnit(recording, file, name, unit),
        hasFlag(given, 'unit') ? 'unit' : 'files',
      );
    }
    const origin = {
      option: 'the option',
      header: 'the header',
      'mean vector': 'the length of the mean vector',
      none: 'nothing',
    }[unitFrom];
    channels.push({
      name,
      ...(header === undefined ? {} : { header }),
      unit: parsed.unit,
      unitFrom: origin,
      samples,
      includesStatic: true,
    });
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
  };
  return { run: settleClock(run, clock) };
}

/**
 * A channel with the unit of the option where the file settles none. The reader applies the option to the axes of
 * acceleration; a column that is none has been named by hand, and then the option is meant for it.
 */
function byOption(read: Recording['channels'][number], given: Arguments): Recording['channels'][number] {
  const stated = unitOf(option(given, 'unit'));
  if (read.unit !== undefined || stated === undefined) return read;
  const scale = siOf(given, 'scale');
  const samples = scale === undefined ? read.samples : read.samples.map((value) => value * scale);
  return { ...read, unit: stated.symbol, unitFrom: 'option', samples };
}

/** The reader may know more of why, and which option with which figure settles it. */
function whyNoUnit({ findings }: Recording, { path }: RawFile, name: string, unit: string | undefined): string {
  const finding = findings.find(({ code }) => code === 'unit-unsettled');
  if (unit === undefined && finding !== undefined) return `${path}: ${finding.message}`;
  const why =
    unit === undefined
      ? `Nothing in ${path} settles the unit of ${name}`
      : `${path} gives ${name} in "${unit}", which is no known unit`;
  return `${why}: say it with the option unit, as in "unit g".`;
}

function chosenChannels(
  recording: Recording,
  given: Arguments,
  label: string,
): Recording['channels'] | { ok: false; failure: Failure } {
  const asked = given.options.channel ?? [];
  if (asked.length === 0) {
    const axes = recording.channels.filter(({ axis }) => axis);
    return axes.length > 0 ? axes : recording.channels;
  }
  const chosen: Recording['channels'][number][] = [];
  for (const argument of asked) {
    const name = argument.type === 'word' ? argument.word : (textOf(argument) ?? '');
    const found = findChannel(recording.channels, name);
    if (found === undefined) {
      return refuse(
        'channel.unknown',
        `${label} has no channel ${name}: it has ${recording.channels.map((one) => one.name).join(', ')}.`,
        'channel',
      );
    }
    chosen.push(found);
  }
  return chosen;
}
