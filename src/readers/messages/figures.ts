import type { Message } from '../../result/result.ts';
import type { CheckFacts } from './checks.ts';
import type { TimeFacts } from './time.ts';
import { inUnit, percent } from './words.ts';

type Facts = CheckFacts & TimeFacts;

/** The figure that a finding turns on, and how its sentence writes it. */
type Turning = readonly [value: number, written: (value: number) => string];

const inG = (value: number): string => inUnit(value, 'g');

const figures: { readonly [Code in keyof Facts]?: (facts: Facts[Code]) => Turning } = {
  aliasing: ({ share }) => [share, percent],
  clipped: ({ share }) => [share, percent],
  drift: ({ change }) => [change, inG],
  gap: ({ share }) => [share, percent],
  gravity: ({ length }) => [length, inG],
  'one-event': ({ share }) => [share, percent],
  'readings-repeat': ({ share }) => [share, percent],
  spikes: ({ count }) => [count, String],
  uneven: ({ jitter }) => [jitter, percent],
};

/**
 * From where to where the figure goes that findings of one code turn on: `18.1 % to 19.8 %`; undefined of a code that
 * turns on no figure.
 */
export function rangeOf(code: string, found: readonly Pick<Message, 'facts'>[]): string | undefined {
  if (!Object.hasOwn(figures, code)) return undefined;
  const figureOf = figures[code as keyof Facts] as (facts: object) => Turning;
  const all = found.map(({ facts }) => figureOf(facts)).sort(([a], [b]) => a - b);
  const [low, high] = [all[0], all[all.length - 1]].map(([value, written]) => written(value));
  return low === high ? low : `${low} to ${high}`;
}
