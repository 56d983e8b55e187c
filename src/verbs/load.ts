import type { Finding, ReadOptions, Recording } from '../readers/recording.ts';
import { read } from '../readers/read.ts';
import { parseUnit } from '../units/parse.ts';
import { findChannel } from './channel.ts';
import { hasFlag, option, siOf, textOf, unitOf } from './given.ts';
import { settleClock } from './settleClock.ts';
import type { Channel, RawFile, Run } from './values.ts';
import {
  answer,
  refuse,
  type Context,
  type Failure,
  type Files,
  type Given,
  type SourceList,
  type Verb,
  type Warning,
} from './verb.ts';

export const load: Verb = {
  form: {
    verb: 'load',
    summary: 'Reads recordings from a logger’s files.',
    help: 'Paths are relative to the notebook’s folder; `*` and `?` stand for any characters, and files come in natural name order. Layout, time column, rate, unit and axes are detected and reported; each option overrides one detection. Without `channel`, all recognised axes are taken, else every numeric column but the time. Nothing is ever written to a raw file.',
    operands: [
      { name: 'files', doc: 'Files or patterns, in quotes.', accepts: [{ type: 'text', role: 'files' }], many: true },
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
        accepts: [{ type: 'quantity', dimension: 'frequency', least: 0 }],
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
    examples: ['load "raw/brick-foam-*.csv.gz" channel z label "foam"'],
  },

  async sources(given: Given, files: Files): Promise<SourceList> {
    const paths: string[] = [];
    for (const pattern of patterns(given)) {
      const list = await files.expand(pattern);
      if (!list.ok) return list;
      paths.push(...list.paths.filter((path) => !paths.includes(path)));
    }
    return { ok: true, paths };
  },

  async evaluate(given, context) {
    const options = readOptions(given);
    if ('failure' in options) return options;
    const list = await load.sources!(given, context.files);
    if (!list.ok) return list;
    const warnings: Warning[] = [];
    const runs: Run[] = [];
    const label = textOf(option(given, 'label'));
    const labels = labelsOf(list.paths, label);
    for (const [index, path] of list.paths.entries()) {
      const recording = await readOne(path, options.value, context, index, list.paths.length);
      if ('failure' in recording) return recording;
      const file: RawFile = { path, ...(await context.files.identify(path)) };
      const run = runOf(recording, file, labels[index], given);
      if ('failure' in run) return run;
      runs.push(run.run);
      warnings.push(
        ...run.run.findings
          .filter(({ severity }) => severity !== 'note')
          .map((finding) => asWarning(labels[index], finding)),
      );
    }
    return answer({ kind: 'runs', set: label, runs }, warnings);
  },
};

const patterns = (given: Given): string[] => (given.operands.files ?? []).flatMap((argument) => textOf(argument) ?? []);

const asWarning = (label: string, { code, message }: Finding): Warning => ({
  code,
  message: message.startsWith(label) ? message : `${label}: ${message}`,
});

async function readOne(
  path: string,
  options: ReadOptions,
  { files, watch }: Context,
  index: number,
  count: number,
): Promise<Recording | { ok: false; failure: Failure }> {
  const source = await files.open(path);
  const found = await read(source, options, {
    cancelled: watch.cancelled,
    progress: (fraction) => watch.progress((index + fraction) / count, `reading ${path}`),
  });
  return found.ok ? found.recording : refuse(found.refusal.code, found.refusal.message, 'files');
}

function readOptions(given: Given): { value: ReadOptions } | { ok: false; failure: Failure } {
  const decimal = textOf(option(given, 'decimal'));
  if (decimal !== undefined && decimal !== '.' && decimal !== ',')
    return refuse('option.value', 'The decimal mark is "." or ",".', 'decimal');
  const rate = siOf(given, 'rate');
  if (rate !== undefined && !(rate > 0)) return refuse('option.value', 'A rate is above 0 Hz.', 'rate');
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

function namedByHand(given: Given): Record<string, string> | undefined {
  const pairs = [...(given.options.channels ?? []), ...(given.options.channel ?? [])].flatMap((argument) =>
    argument.type === 'word' && argument.text !== undefined ? [[argument.word, argument.text] as const] : [],
  );
  return pairs.length === 0 ? undefined : Object.fromEntries(pairs);
}

/** Run labels: the files' names without endings, told apart by their folders where they are the same. */
function labelsOf(paths: readonly string[], label: string | undefined): string[] {
  if (label !== undefined && paths.length === 1) return [label];
  const bare = (path: string): string => (path.split('/').pop() ?? path).replace(/(\.[A-Za-z0-9]{1,8}){1,2}$/, '');
  const names = paths.map(bare);
  return names.map((name, index) => (names.filter((other) => other === name).length > 1 ? paths[index] : name));
}

function runOf(
  recording: Recording,
  file: RawFile,
  label: string,
  given: Given,
): { run: Run } | { ok: false; failure: Failure } {
  const chosen = chosenChannels(recording, given, label);
  if ('failure' in chosen) return chosen;
  const channels: Channel[] = [];
  for (const { name, header, unit, unitFrom, samples } of chosen) {
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
      steady: true,
    });
  }
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
  given: Given,
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
