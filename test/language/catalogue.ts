import type { FunctionForm } from '../../src/language/checked.ts';
import type { Accept, DimensionName, Form, OperandForm, OptionForm, ValueKind } from '../../src/language/form.ts';
import type { Catalogue, KindForm } from '../../src/language/vocabulary.ts';

/** Forms that mirror the table of verbs of the language, so that this room is tested without the real catalogue. */
const value = (...kinds: ValueKind[]): Accept => ({ type: 'value', kinds });
const quantity = (
  dimension: DimensionName,
  more: { least?: number; most?: number; signed?: boolean } = {},
): Accept => ({ type: 'quantity', dimension, ...more });
const range = (dimension: DimensionName): Accept => ({ type: 'range', dimension });
const words = (...list: string[]): Accept => ({ type: 'word', words: list });
const operand = (name: string, accepts: Accept | Accept[], more: Partial<OperandForm> = {}): OperandForm => ({
  name,
  doc: `The ${name}.`,
  accepts: [accepts].flat(),
  ...more,
});
const option = (keyword: string, accepts: Accept | Accept[], more: Partial<OptionForm> = {}): OptionForm => ({
  keyword,
  doc: `The ${keyword}.`,
  accepts: [accepts].flat(),
  ...more,
});

const form = (
  verb: string,
  gives: ValueKind,
  operands: OperandForm[],
  options: OptionForm[] = [],
  example = '',
): Form => ({
  verb,
  summary: `Does ${verb}.`,
  help: `What ${verb} computes.`,
  operands,
  options,
  gives,
  examples: example ? [example] : [],
});

const runs = operand('runs', value('runs'));
const confidence = option('confidence', quantity('ratio', { least: 0.5, most: 0.9999 }), { default: '95 %' });
const shapes = ['hann', 'hamming', 'blackman', 'blackman-harris', 'flattop', 'rectangular'];
const using = option('using', [value('window'), words(...shapes), { type: 'step', verb: 'window' }], {
  default: 'window hann 2 s overlap 50 %',
});
const any = value(
  'quantity',
  'text',
  'runs',
  'window',
  'spectrum',
  'levels',
  'bands',
  'comparison',
  'verdict',
  'findings',
  'peaks',
  'table',
);

export const verbs: readonly Form[] = [
  form(
    'load',
    'runs',
    [operand('files', { type: 'text', role: 'files' }, { many: true })],
    [
      option('channel', { type: 'channel', assigned: true }, { many: true }),
      option('channels', { type: 'channel', assigned: true }, { many: true }),
      option('time', { type: 'text', role: 'column' }),
      option('unit', { type: 'unit', dimension: 'any' }),
      option('rate', quantity('frequency')),
      option('label', { type: 'text', role: 'label' }),
      option('delimiter', { type: 'text' }),
      option('decimal', { type: 'text' }),
      option('where', { type: 'channel', role: 'label' }, { many: true }),
    ],
    'stock = load "raw/*.csv" unit g',
  ),
  form('check', 'findings', [runs]),
  form('channel', 'runs', [runs, operand('channel', { type: 'channel' })]),
  form('resultant', 'runs', [runs]),
  form(
    'trim',
    'same',
    [runs, operand('range', range('time'), { optional: true })],
    [option('from', quantity('time')), option('to', quantity('time')), option('length', quantity('time'))],
    'trim stock 5..80 s',
  ),
  form('detrend', 'runs', [runs, operand('what', words('mean', 'linear'), { optional: true })]),
  form(
    'highpass',
    'runs',
    [runs, operand('frequency', quantity('frequency'))],
    [option('order', { type: 'integer', least: 1, most: 12 }, { default: '4' })],
  ),
  form('resample', 'runs', [runs, operand('rate', quantity('frequency'))]),
  form('weight', 'runs', [runs, operand('weighting', words('wk', 'wd', 'wf', 'wc', 'we', 'wj', 'wh'))]),
  form('levels', 'levels', [runs], [], 'levels stock'),
  form('running', 'running', [runs, operand('over', quantity('time'), { keyword: 'over' })]),
  form(
    'window',
    'window',
    [operand('shape', words(...shapes)), operand('length', quantity('time'), { optional: true })],
    [option('overlap', quantity('ratio', { least: 0, most: 0.95 }), { default: '50 %' })],
    'W = window hann 2 s overlap 50 %',
  ),
  form(
    'spectrum',
    'spectrum',
    [runs],
    [using, option('as', words('psd', 'amplitude'), { default: 'psd' }), confidence],
    'spectrum stock using hann 2 s',
  ),
  form('band', 'bands', [
    operand('spectrum', value('spectrum')),
    operand('fraction', words('third-octave', 'octave'), { optional: true }),
    operand('bands', range('frequency'), { many: true }),
  ]),
  form(
    'peaks',
    'peaks',
    [operand('spectrum', value('spectrum')), operand('range', range('frequency'))],
    [option('count', { type: 'integer', least: 1, most: 50 })],
  ),
  form('spectrogram', 'spectrogram', [runs], [using]),
  form(
    'transfer',
    'transfer',
    [
      runs,
      operand('input', { type: 'channel' }, { keyword: 'from' }),
      operand('output', { type: 'channel' }, { keyword: 'to' }),
    ],
    [using],
  ),
  form(
    'compare',
    'comparison',
    [
      operand('a', value('runs', 'spectrum', 'bands')),
      operand('b', value('runs', 'spectrum', 'bands'), { keyword: 'with' }),
    ],
    [
      option('over', range('frequency'), { many: true, mistaken: ['band'] }),
      confidence,
      option('margin', quantity('ratio')),
      option('paired', []),
    ],
  ),
  form(
    'claim',
    'verdict',
    [operand('comparison', value('comparison')), operand('reduction', quantity('ratio'), { keyword: 'reduction' })],
    [option('over', range('frequency'), { mistaken: ['band'] }), option('source', { type: 'text' })],
  ),
  form(
    'repeats',
    'repeats',
    [
      operand('detect', quantity('ratio'), { keyword: 'detect' }),
      operand('spread', quantity('ratio'), { keyword: 'spread' }),
    ],
    [option('power', quantity('ratio', { most: 0.999 })), confidence],
  ),
  form(
    'plot',
    'chart',
    [operand('subjects', any, { many: true })],
    [
      option('over', [range('frequency'), range('time')]),
      option('scale', words('log', 'linear')),
      option('mark', [], {
        repeatable: true,
        parts: [
          { accepts: [quantity('frequency'), quantity('time')], doc: 'Where.' },
          { accepts: [{ type: 'text' }], optional: true, doc: 'What it is.' },
        ],
      }),
    ],
    'plot stock',
  ),
  form('table', 'table', [operand('value', any)]),
];

const fn = (name: string, parameters: string, variadic: boolean, more: Partial<FunctionForm> = {}): FunctionForm => ({
  name,
  summary: `The ${name}.`,
  parameters: parameters.split(' ').map((parameter) => ({ name: parameter, doc: `The ${parameter}.` })),
  variadic,
  example: `${name}(…)`,
  ...more,
});

export const functions: readonly FunctionForm[] = [
  fn('sqrt', 'x', false, { gives: 'root' }),
  fn('abs', 'x', false, { gives: 'same' }),
  fn('min', 'x', true, { gives: 'same' }),
  fn('max', 'x', true, { gives: 'same' }),
  fn('log10', 'x', false, { gives: 'ratio' }),
  fn('series', 'k', true, { gives: 'same' }),
  fn('parallel', 'k', true, { gives: 'same' }),
  {
    ...fn('natural_frequency', 'k m', false, { gives: 'frequency' }),
    parameters: [
      { name: 'k', doc: 'Stiffness.', dimension: 'stiffness' },
      { name: 'm', doc: 'Mass.', dimension: 'mass' },
    ],
  },
  fn('rotation_rate', 'speed circumference', false, { gives: 'frequency' }),
];

const kind = (name: ValueKind, words: string, picks = false, fields: KindForm['fields'] = []): KindForm => ({
  name,
  words,
  picks,
  units: !['text', 'window', 'verdict', 'findings', 'order', 'repeats'].includes(name),
  fields,
});

export const catalogue: Catalogue = {
  verbs,
  functions,
  kinds: [
    kind('quantity', 'a quantity'),
    kind('text', 'a text'),
    kind('runs', 'runs', true),
    kind('window', 'a window'),
    kind('spectrum', 'a spectrum', true),
    kind('levels', 'levels', true, [
      { name: 'rms', doc: 'Root mean square.' },
      { name: 'peak', doc: 'Largest deviation.' },
    ]),
    kind('bands', 'bands', true),
    kind('comparison', 'a comparison', true, [{ name: 'change', doc: 'B/A - 1.', dimension: 'ratio' }]),
    kind('verdict', 'a verdict'),
    kind('findings', 'findings'),
    kind('peaks', 'peaks', true),
    kind('transfer', 'a transfer function', true),
    kind('spectrogram', 'a spectrogram', true),
    kind('running', 'a running level', true),
    kind('repeats', 'a number of repeats'),
    kind('profile', 'a profile'),
    kind('order', 'an order of runs'),
    kind('table', 'a table'),
    kind('chart', 'a chart'),
  ],
};
