import { sameDimension } from '../units/dimension.ts';
import type { Unit } from '../units/unit.ts';
import type { ChartSubject, Drawable } from '../values/chart.ts';
import { descriptionOf } from '../values/kinds.ts';

/**
 * What is drawn together, in one unit each for what measures the same: that of the first subject which measures it, as sets in
 * g and in mg compare in the baseline's. What has no unit of its own, or is drawn by itself, stays as it is.
 */
export function inOneUnit(subjects: readonly ChartSubject[]): readonly ChartSubject[] {
  const known: Unit[] = [];
  return subjects.map((subject) => {
    let { value } = subject;
    for (const unit of unitsOf(value)) {
      const first = known.find(({ dimension }) => sameDimension(dimension, unit.dimension));
      if (first === undefined) known.push(unit);
      else if (first.symbol !== unit.symbol) value = toldIn(value, first);
    }
    return value === subject.value ? subject : { ...subject, value };
  });
}

const toldIn = (value: Drawable, unit: Unit): Drawable =>
  (descriptionOf(value).inUnit?.(value, unit) as Drawable | undefined) ?? value;

/** Units of the signals that a value shares an axis for. */
function unitsOf(value: Drawable): readonly Unit[] {
  switch (value.kind) {
    case 'runs':
      return value.runs.flatMap(({ channels }) => channels.map(({ unit }) => unit));
    case 'spectrum':
    case 'running':
      return value.entries.map(({ channel }) => channel.unit);
    case 'levels':
      return value.rows.map(({ channel }) => channel.unit);
    case 'bands':
      return value.rows.map(({ unit }) => unit);
    case 'profile':
      return [value.rmsUnit];
    case 'comparison':
    case 'earlier':
    case 'pooled':
    case 'shock':
    case 'verdict':
    case 'peaks':
    case 'transfer':
    case 'spectrogram':
    case 'repeats':
      return [];
  }
}
