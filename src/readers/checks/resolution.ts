import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import { converterStep, meanOf, meanSquare, measured, stepBound, type Check } from './checked.ts';

/** Whether the vibration is large enough beside one step of the converter. */
export const resolution: Check = (run) =>
  measured(run).flatMap(({ samples, name, unit }) => {
    const rms = Math.sqrt(meanSquare(samples, meanOf(samples)));
    const { fault, warning } = settings.resolution;
    // Nearly every recording is cleared by a bound, which costs a fraction of the step itself.
    if (rms >= warning * stepBound(samples)) return [];
    const step = converterStep(samples);
    if (step === 0 || rms >= warning * step) return [];
    const tooSmall = rms < fault * step;
    // Rounding to steps adds noise of step²/12, spread evenly up to half the rate: step²/(6 rate) a Hz.
    const facts = { channel: name, unit, rms, step, density: step ** 2 / (6 * run.rate) };
    const basis = { value: rms / step, threshold: tooSmall ? fault : warning, channel: name };
    return [finding('resolution', tooSmall ? 'fault' : 'warning', facts, basis)];
  });
