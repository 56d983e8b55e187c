import { quantityIn, si, textOf, wordOf, option } from './given.ts';
import type { ChartSubject, ChartValue } from './values.ts';
import { answer, refuse, type Verb } from './verb.ts';

const drawn = ['runs', 'spectrum', 'levels', 'bands', 'comparison'] as const;

export const plot: Verb = {
  form: {
    verb: 'plot',
    summary: 'Draws one or more values in one chart.',
    help: 'Runs are drawn over time (each trimmed stretch on its whole recording), spectra over frequency, bands along with a spectrum as shaded stretches. `mark` draws a labelled line, such as the wheel’s turning rate.',
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
      if (argument.type !== 'value')
        return refuse('plot.kind', 'Only runs, spectra, levels, bands and comparisons can be drawn.', 'subjects');
      const { value, name } = argument;
      if (value.kind === 'chart' || value.kind === 'quantity' || value.kind === 'text')
        return refuse('plot.kind', 'A chart, a quantity or a text can’t be drawn.', 'subjects');
      subjects.push({ name, value });
    }
    const kinds = new Set(subjects.map(({ value }) => value.kind));
    if (kinds.has('runs') && kinds.size > 1)
      return refuse(
        'plot.mixed',
        'Runs are drawn over time and can’t share a chart with what is drawn over frequency: make two charts.',
        'subjects',
      );
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
