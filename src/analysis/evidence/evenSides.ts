import { answered, type Answer } from '../../result/result.ts';
import { evenly } from '../recordings/uniformRate.ts';
import { isWeighting } from './metrics.ts';
import type { ComparisonTerms } from './request.ts';
import { mappedSides, type Side, type Sides } from './sides.ts';

/**
 * All sides at a uniform rate where what is compared needs one, a band or a weighted level, and told; else as logged.
 * Refuses runs too uneven to be brought to one.
 */
export function evenSides(sides: Sides, { metric, ofSignal }: ComparisonTerms): Answer<Sides> {
  if (ofSignal && !isWeighting(metric)) return answered(sides);
  return mappedSides(sides, evenSide);
}

function evenSide(side: Side): Answer<Side> {
  const runs = side.tracks.map(({ run, channel }) => ({ ...run, channels: [channel] }));
  const even = evenly({ set: side.name, runs }, 'compare');
  if (!even.ok) return even;
  const tracks = even.value.runs.map((run, i) =>
    run === runs[i] ? side.tracks[i] : { run, channel: run.channels[0] },
  );
  return answered({ ...side, tracks }, even.warnings);
}
