import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import { converterStep, meanOf, meanSquare, measured, type Check } from './checked.ts';

/** Whether the vibration is large enough beside one step of the converter. */
export const resolution: Check = (run) =>
  measured(run).flatMap(({ samples, name, unit }) => {
    const step = converterStep(samples);
    const rms = Math.sqrt(meanSquare(samples, meanOf(samples)));
    const { fault, warning } = settings.resolution;
    if (step === 0 || rms >= warning * step) return [];
    const tooSmall = rms < fault * step;
    // Rounding to steps adds noise of step²/12, spread evenly up to half the rate: step²/(6 rate) a Hz.
    const facts = { channel: name, unit, rms, step, density: step ** 2 / (6 * run.rate) };
    const judged = { value: rms / step, threshold: tooSmall ? fault : warning, channel: name };
    return [finding('resolution', tooSmall ? 'fault' : 'warning', facts, judged)];
  });
