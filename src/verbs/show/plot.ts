import { quantityIn, si, textOf, wordOf, option } from '../arguments.ts';
import type { ChartSubject, ChartValue, Drawable } from '../../values/chart.ts';
import { isDrawable, kindsOver } from '../../values/kinds.ts';
import { answer, type Argument, type Arguments, type Verb } from '../verb.ts';
import { refuse } from '../../result/result.ts';

/** What is drawn over time and what over frequency: the two can't share a chart. */
const overTime = kindsOver('time');
const overFrequency = kindsOver('frequency');
const drawn = [...overTime, ...overFrequency, ...kindsOver('itself')];

export const plot: Verb = {
  passesFaults: true,
  form: {
    verb: 'plot',
    summary: 'Draws one or more values in one chart.',
    help: 'Runs are drawn over time (each trimmed stretch on its whole recording), running levels too; spectra over frequency, with bands along with them as shaded stretches and profiles as limits; peaks marked in their spectrum; a transfer as magnitude, phase and coherence; a spectrogram as a picture of each run. `mark` draws a labelled line, such as the wheel’s turning rate.',
    operands: [{ name: 'subjects', doc: 'What to draw.', accepts: [{ type: 'value', kinds: drawn }], many: true }],
    options: [
      {
        keyword: 'over',
        doc: 'The stretch of the axis to show.',
        accepts: [
          { type: 'range', dimension: 'frequency' },
          { type: 'range', dimension: 'time' },
        ],
        default: 'all of it',
      },
      {
        keyword: 'scale',
        doc: 'Scale of the frequency axis.',
        accepts: [{ type: 'word', words: ['linear', 'log'] }],
        default: 'linear',
      },
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
    const subjects: ChartSubject[] = [];
    for (const argument of given.operands.subjects) {
      if (argument.type !== 'value' || !isDrawable(argument.value))
        return refuse('plot.kind', cantDraw(argument), 'subjects');
      subjects.push({ name: argument.name, value: argument.value });
    }
    const mixed = whyMixed(subjects, given);
    if (mixed !== undefined) return refuse('plot.mixed', mixed, 'subjects');
    const over = option(given, 'over');
    const marks = (given.options.mark ?? []).flatMap((group) => {
      const parts = group.type === 'group' ? group.parts : [group];
      const at = quantityIn(parts[0]);
      return at === undefined ? [] : [{ at: si(at), label: textOf(parts[1]) ?? '' }];
    });
    const value: ChartValue = {
      kind: 'chart',
      subjects,
      ...(over?.type === 'range' ? { over: { from: si(over.from), to: si(over.to) } } : {}),
      frequency: wordOf(option(given, 'scale')) === 'log' ? 'log' : 'linear',
      marks,
    };
    if (value.over !== undefined && !(value.over.to > value.over.from))
      return refuse('range.backward', 'The stretch to show ends before it begins.', 'over');
    return answer(value);
  },
};

function cantDraw(argument: Argument): string {
  const what = argument.type === 'value' ? `a value of the kind ${argument.value.kind}` : `a ${argument.type}`;
  return `There is no chart of ${what}: ${drawn.slice(0, -1).join(', ')} and ${drawn[drawn.length - 1]} can be drawn.`;
}

/** Why the subjects can't share a chart, or its options be read on their axis. */
function whyMixed(subjects: readonly ChartSubject[], given: Arguments): string | undefined {
  const kinds = subjects.map(({ value }) => value.kind);
  const among = (list: readonly Drawable['kind'][]): Drawable['kind'] | undefined =>
    kinds.find((kind) => list.includes(kind));
  const [time, frequency] = [among(overTime), among(overFrequency)];
  if (time !== undefined && frequency !== undefined)
    return `A chart is over time, as for ${time}, or over frequency, as for ${frequency}: make two charts.`;
  const axes = subjects.map(({ value }) => (value.kind === 'spectrum' ? value.axis : undefined));
  const orders = axes.find((axis) => axis !== undefined);
  if (orders === undefined) return undefined;
  if (axes.some((axis) => axis?.name !== orders.name))
    return `A spectrum over ${orders.name} shares a chart only with its like: make two charts.`;
  if (given.options.over !== undefined || given.options.mark !== undefined)
    return `The axis of this chart is ${orders.name}, and \`over\` and \`mark\` are in Hz or s: leave them out.`;
  return undefined;
}
