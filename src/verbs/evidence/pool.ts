import { pooled } from '../../analysis/evidence/pool.ts';
import { confidenceAccepted, siOf, type Verb } from '../verb.ts';

export const pool: Verb = {
  takesLong: true,
  needsNoSamples: true,
  form: {
    verb: 'pool',
    summary: 'Makes one change of those that several studies found.',
    help: 'Each study is one stratum, and all have equal weight: the mean of ln(B/A) over the studies, with the variance sum se²/S² and degrees of freedom by Satterthwaite (1946). Weights by the inverse of the variance are not offered, since at few runs their intervals cover far less than they state. Pooled are the changes over all strata that every study has, of one measure, band and axis; where each study has one condition, its name may differ, which is told. Intervals hold for all changes together, the primary one of every study by itself. It speaks of these studies alone: whether another one would find the same takes more of them. Studies that share a recording are refused. What is only to be seen beside each other is drawn by `plot C, E`.',
    operands: [
      {
        name: 'studies',
        doc: 'Comparisons, and earlier studies.',
        accepts: [{ type: 'value', kinds: ['comparison', 'earlier'] }],
        many: true,
      },
    ],
    options: [{ keyword: 'confidence', doc: 'Of the intervals.', accepts: [confidenceAccepted], default: '95 %' }],
    gives: 'pooled',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\ngel = load "raw/brick-gel-*.csv.gz" | channel z | trim 10..70 s\nC = compare foam with gel over 4..10 Hz, 10..50 Hz\nE = earlier "three-pads.record.json" of "pads.rows[10..50 Hz]"\npool C, E',
    ],
  },
  evaluate(given) {
    const studies = (given.operands.studies ?? []).flatMap((argument) =>
      argument.type === 'value' && (argument.value.kind === 'comparison' || argument.value.kind === 'earlier')
        ? [{ name: argument.name, value: argument.value }]
        : [],
    );
    return pooled(studies, siOf(given, 'confidence') ?? 0.95);
  },
};
