import {
  answer,
  option,
  quantityIn,
  rangeIn,
  si,
  textOf,
  textsIn,
  type Argument,
  type Arguments,
  type Verb,
  refuse,
} from '../verb.ts';
import type { Refused } from '../../result/result.ts';
import type { ChartSubject, ChartValue, Drawable } from '../../values/chart.ts';
import { hasLevels, levelReferenceIn, noLevels, referenceOption } from './levelScale.ts';
import { drawnKinds, isDrawable, kindsOver } from '../../values/kinds.ts';

/** What is drawn over time and what over frequency: the two can't share a chart. */
const overTime = kindsOver('time');
const overFrequency = kindsOver('frequency');

export const plot: Verb = {
  takesLong: true,
  needsNoSamples: true,
  passesFaults: true,
  form: {
    verb: 'plot',
    summary: 'Draws one or more values in one chart.',
    help: 'Runs are drawn over time (each trimmed stretch on its whole recording), running levels too; spectra over frequency, with bands along with them as shaded stretches and profiles as limits; peaks marked in their spectrum; a transfer as magnitude, phase and coherence; shock responses over the natural frequency, on log-log paper; a spectrogram as a picture of each run. `mark` draws a labelled line, such as the wheel’s turning rate.',
    operands: [{ name: 'subjects', doc: 'What to draw.', accepts: [{ type: 'value', kinds: drawnKinds }], many: true }],
    options: [
      {
        keyword: 'over',
        mistaken: ['band', 'bands'],
        doc: 'The stretch of the axis to show.',
        accepts: [
          { type: 'range', dimension: 'frequency' },
          { type: 'range', dimension: 'time' },
        ],
        default: 'all of it',
      },
      {
        keyword: 'scale',
        doc: 'Scale of the frequency axis, `linear` or `log`; and `dB` for levels over the reference that `re` names.',
        accepts: [{ type: 'word', words: ['linear', 'log', 'dB'] }],
        many: true,
        default: 'linear',
      },
      referenceOption,
      {
        keyword: 'mark',
        doc: 'A labelled line at a frequency or a time.',
        accepts: [],
        repeatable: true,
        parts: [
          {
            accepts: [
              { type: 'quantity', dimension: 'frequency' },
              { type: 'quantity', dimension: 'time' },
            ],
            doc: 'Where.',
          },
          { accepts: [{ type: 'text', role: 'label' }], optional: true, doc: 'Its label.' },
        ],
      },
    ],
    gives: 'chart',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nplot (spectrum foam) over 1..100 Hz scale log',
    ],
  },
  evaluate(given) {
    const subjects = (given.operands.subjects ?? []).flatMap((argument) =>
      argument.type === 'value' && isDrawable(argument.value) ? [{ name: argument.name, value: argument.value }] : [],
    );
    const mixed = whyMixed(subjects, given);
    if (mixed !== undefined) return mixed;
    const over = rangeIn(option(given, 'over'));
    const reference = levelReferenceIn(given);
    if (!reference.ok) return reference;
    const level = reference.value;
    if (level !== undefined && !subjects.some(({ value: subject }) => hasLevels(subject, level)))
      return noLevels(level, 're');
    const value: ChartValue = {
      kind: 'chart',
      subjects,
      ...(over === undefined ? {} : { over }),
      frequency: textsIn(given.options.scale).includes('log') ? 'log' : 'linear',
      ...(level === undefined ? {} : { level }),
      marks: (given.options.mark ?? []).flatMap(markIn),
    };
    return answer(value);
  },
};

function markIn(group: Argument): ChartValue['marks'] {
  const parts = group.type === 'group' ? group.parts : [group];
  const at = quantityIn(parts[0]);
  return at === undefined ? [] : [{ at: si(at), label: textOf(parts[1]) ?? '' }];
}

/** Why the subjects can't share a chart, or its options be read on their axis. */
function whyMixed(subjects: readonly ChartSubject[], given: Arguments): Refused | undefined {
  const kinds = subjects.map(({ value }) => value.kind);
  const among = (list: readonly Drawable['kind'][]): Drawable['kind'] | undefined =>
    kinds.find((kind) => list.includes(kind));
  const [time, frequency] = [among(overTime), among(overFrequency)];
  if (time !== undefined && frequency !== undefined)
    return refuse('plot.mixed', { why: 'axes', time, frequency }, 'subjects');
  const axes = subjects.map(({ value }) => (value.kind === 'spectrum' ? value.axis : undefined));
  const orders = axes.find((axis) => axis !== undefined);
  if (orders === undefined) return undefined;
  const { name: axis } = orders;
  if (axes.some((other) => other?.name !== axis)) return refuse('plot.mixed', { why: 'orders', axis }, 'subjects');
  return given.options.over !== undefined || given.options.mark !== undefined
    ? refuse('plot.mixed', { why: 'options', axis }, 'subjects')
    : undefined;
}
