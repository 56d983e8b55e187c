import { figure } from '../refusal.ts';
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
    const units = unit ? ` ${unit}` : '';
    // Rounding to steps adds noise of step²/12, spread evenly up to half the rate: step²/(6 rate) a Hz.
    const floor = `${figure(step ** 2 / (6 * run.rate))}${unit ? ` (${unit})²` : ''}/Hz`;
    return [
      {
        code: 'resolution',
        severity: tooSmall ? ('fault' as const) : ('warning' as const),
        message: `${name} moves by ${figure(rms)}${units} rms, only ${figure(rms / step)} steps of the converter (${figure(step)}${units}), whose rounding alone is ${floor}: record with a smaller range or a finer sensor.`,
        value: rms / step,
        threshold: tooSmall ? fault : warning,
        channel: name,
      },
    ];
  });
