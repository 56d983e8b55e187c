import { factsOf } from '../columnFacts.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import {
  converterStep,
  holdsOfStepBound,
  meanOf,
  meanSquare,
  measured,
  some,
  stepBound,
  type Check,
  type CheckedChannel,
} from './checked.ts';

/** Whether the vibration is large enough beside one step of the converter. */
export const resolution: Check = (run) =>
  measured(run).flatMap(({ samples, name, unit }) => {
    const { fault, warning } = settings.resolution;
    // Nearly every recording is cleared by bounds, which cost a fraction of what they are bounds of.
    if (!mayBeWithin(samples, warning)) return [];
    const bound = warning * stepBound(samples);
    const rms = Math.sqrt(meanSquare(samples, meanOf(samples)));
    if (rms >= bound) return [];
    const step = converterStep(samples);
    if (step === 0 || rms >= warning * step || !keepsToSteps(samples)) return [];
    const tooSmall = rms < fault * step;
    // Rounding to steps adds noise of step²/12, spread evenly up to half the rate: step²/(6 rate) a Hz.
    const facts = { channel: name, unit, rms, step, density: step ** 2 / (6 * run.rate) };
    const basis = { value: rms / step, threshold: tooSmall ? fault : warning, channel: name };
    return [finding('resolution', tooSmall ? 'fault' : 'warning', facts, basis)];
  });

/** Whether a channel's vibration may be so small beside a step of the converter that it is a fault. */
export const mayBeTooSmall = ({ samples }: CheckedChannel): boolean => mayBeWithin(samples, settings.resolution.fault);

/** Whether the r.m.s. may be less than so many steps of the converter: as it may where sums have overflowed and tell nothing. */
function mayBeWithin(samples: Float64Array, steps: number): boolean {
  const least = leastRms(samples);
  return holdsOfStepBound(samples, (bound) => !(least >= steps * bound));
}

/** Rounding of the difference of two sums, as a share of the larger, that is far more than theirs. */
const rounding = 1e-6;

/** A number that the r.m.s. about the mean is not below, of sums that are known anyway. */
function leastRms(samples: Float64Array): number {
  const { sum, squares } = factsOf(samples);
  const count = samples.length;
  return Math.sqrt(Math.max(0, (squares - sum * (sum / count) - rounding * squares) / count));
}

/** Fewest samples that tell a step; how far a difference may be from a whole number of steps, and the share that may be farther. */
const [fewest, slack, farther] = [20, 0.3, 0.1];

/**
 * Whether the values that occur lie whole numbers of steps apart, but for their last digit: those of few samples, or of a
 * tone that comes back to the same few values, are far apart by themselves.
 */
function keepsToSteps(samples: Float64Array): boolean {
  if (samples.length < fewest) return false;
  // So small a signal takes few values: they are as many as the steps that it moves by.
  const values = [...new Set(some(samples))].sort((a, b) => a - b);
  const apart = Float64Array.from(values.slice(1), (value, i) => value - values[i]);
  const usual = apart.slice().sort()[(apart.length - 1) >> 1];
  const off = apart.filter((one) => Math.abs(one / usual - Math.round(one / usual)) > slack);
  return off.length <= farther * apart.length;
}
