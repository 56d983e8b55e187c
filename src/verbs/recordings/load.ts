import { chosenFiles } from '../../analysis/recordings/choice.ts';
import { listed, loaded, wantedRecording, type LoadRequest } from '../../analysis/recordings/load.ts';
import { success, type Refused, type Result } from '../../result/result.ts';
import {
  hasFlag,
  option,
  siOf,
  textOf,
  textsIn,
  unitOf,
  valuesIn,
  type Argument,
  type Arguments,
  type Verb,
  refuse,
} from '../verb.ts';
import type { ClockParts } from '../../analysis/recordings/load.ts';
import { roundedSI as si } from '../../units/arithmetic.ts';

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
      {
        keyword: 'tacho',
        doc: 'A column that counts turns, for `orders`: it is taken along with the others, in whatever unit its pulses are.',
        accepts: [{ type: 'channel' }],
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
        accepts: [{ type: 'channel', role: 'label' }],
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
      {
        keyword: 'calibration',
        doc: 'What `calibrate` gave, which is applied to the samples; or the relative standard uncertainty of the sensors’ sensitivity alone. It widens what is read off levels and bands, stands in their tables, and falls out of changes between runs of one sensor; between runs of different sensors it is part of the interval. Runs are of one sensor unless the sheet (in a column `sensor`, else `logger`) or `sensor` names several.',
        accepts: [
          { type: 'value', kinds: ['calibration'] },
          { type: 'quantity', dimension: 'ratio', above: 0, most: 0.99 },
        ],
      },
      {
        keyword: 'sensor',
        doc: 'Which sensor of a file that interleaves several; of more than one the channels stand side by side, as `base_x`, `top_x`.',
        accepts: [{ type: 'text' }],
        many: true,
      },
      {
        keyword: 'sentinel',
        doc: 'Numbers that stand for no reading, besides nines far beyond all others.',
        accepts: [{ type: 'number' }],
        many: true,
      },
      {
        keyword: 'comment',
        doc: '`none`: lines that begin with a mark of a comment (`#`, `%`, `//`, `!`) are rows as well.',
        accepts: [{ type: 'word', words: ['none'] }],
      },
      {
        keyword: 'clock',
        doc: 'What a clock of two parts such as `10:20` is: "hh:mm" or "mm:ss".',
        accepts: [{ type: 'text' }],
      },
      { keyword: 'timezone', doc: 'Offset from UTC of clock stamps, such as `+02:00`.', accepts: [{ type: 'text' }] },
    ],
    gives: 'runs',
    examples: [
      'load "raw/brick-foam-*.csv.gz" channel z label "foam"',
      'load sheet "raw/runs.csv" where condition foam, surface brick',
    ],
  },

  async sources(given, files) {
    const request = requestIn(given);
    if (!request.ok) return request;
    const choice = await chosenFiles(request.value, files);
    if (!choice.ok) return choice;
    const { sheet, files: chosen } = choice.value;
    const recordings = chosen.map(({ path }) => ({ path, recording: wantedRecording(path, request.value) }));
    return success([...(sheet === undefined ? [] : [{ path: sheet }]), ...recordings]);
  },

  choosing: ['files', 'sheet', 'where', 'including', 'label'],

  async lists(given, files) {
    const request = requestIn(given);
    return request.ok ? listed(request.value, files) : request;
  },

  async evaluate(given, context) {
    const request = requestIn(given);
    return request.ok ? loaded(request.value, context) : request;
  },
};

function requestIn(given: Arguments): Result<LoadRequest> {
  const refusal = whyNoRequest(given);
  if (refusal !== undefined) return refusal;
  return success({
    patterns: textsIn(given.operands.files),
    sheet: textOf(option(given, 'sheet')),
    where: textsIn(given.options.where),
    including: hasFlag(given, 'including'),
    label: textOf(option(given, 'label')),
    channels: channelsIn(given),
    sensitivity: siOf(given, 'calibration'),
    calibration: valuesIn(given.options.calibration ?? [], 'calibration').at(0),
    reading: readingIn(given),
  });
}

const channelsIn = (given: Arguments): string[] =>
  (given.options.channel ?? []).map((one) => (one.type === 'word' ? one.word : (textOf(one) ?? '')));

function whyNoRequest(given: Arguments): Refused | undefined {
  const decimal = textOf(option(given, 'decimal'));
  if (decimal !== undefined && decimal !== '.' && decimal !== ',')
    return refuse('option.value', { option: 'decimal' }, 'decimal');
  const clock = textOf(option(given, 'clock'));
  if (clock !== undefined && clock !== 'hh:mm' && clock !== 'mm:ss')
    return refuse('option.value', { option: 'clock' }, 'clock');
  if (given.options.sheet !== undefined) return undefined;
  const needsSheet = (['where', 'including'] as const).find((keyword) => hasFlag(given, keyword));
  if (needsSheet !== undefined) return refuse('sheet.missing', { option: needsSheet }, needsSheet);
  return given.operands.files === undefined ? refuse('operand.missing', { verb: 'load' }) : undefined;
}

/** What is stated by hand of the files' layout. */
function readingIn(given: Arguments): LoadRequest['reading'] {
  const text = (keyword: string): string | undefined => textOf(option(given, keyword));
  const entries: { [K in keyof LoadRequest['reading']]: LoadRequest['reading'][K] | undefined } = {
    time: text('time'),
    unit: unitOf(option(given, 'unit'))?.symbol,
    rate: siOf(given, 'rate'),
    delimiter: text('delimiter')?.replace('\\t', '\t'),
    decimal: text('decimal') as '.' | ',' | undefined,
    skip: siOf(given, 'skip'),
    scale: siOf(given, 'scale'),
    sensors: given.options.sensor === undefined ? undefined : textsIn(given.options.sensor),
    wanted: given.options.channel === undefined ? undefined : channelsIn(given),
    tacho: text('tacho'),
    sentinels: numbersIn(given.options.sentinel),
    comment: text('comment') as 'none' | undefined,
    clock: text('clock') as ClockParts | undefined,
    timezone: text('timezone'),
    channels: namedByHand(given),
  };
  return Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined));
}

/** Plain numbers, or undefined where none is given. */
const numbersIn = (given: readonly Argument[] | undefined): number[] | undefined =>
  given?.flatMap((one) => (one.type === 'quantity' ? [si(one.quantity)] : []));

function namedByHand({ options }: Arguments): Record<string, string> | undefined {
  const pairs = [...(options.channels ?? []), ...(options.channel ?? [])].flatMap((argument) =>
    argument.type === 'word' && argument.text !== undefined ? [[argument.word, argument.text] as const] : [],
  );
  return pairs.length === 0 ? undefined : Object.fromEntries(pairs);
}
