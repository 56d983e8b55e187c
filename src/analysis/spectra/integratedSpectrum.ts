import type { Density } from '../../signal/welch.ts';
import { integralCut, resultUnit, timesTo, type Goal } from '../conditioning/integrate.ts';
import type { Channel } from '../../values/run.ts';

/** What a spectrum is integrated to, and the frequency in Hz below which it means nothing. */
export interface SpectrumGoal {
  readonly goal: Goal;
  readonly lowCut: number;
}

/** The channel that velocity or displacement is of: in its unit, and bounded below. */
export const integratedChannel = (channel: Channel, { goal, lowCut }: SpectrumGoal): Channel => ({
  ...channel,
  unit: resultUnit[goal],
  unitFrom: 'integration',
  includesStatic: false,
  lowCut: integralCut(channel, lowCut),
});

/**
 * The density of velocity or displacement: that of acceleration over (2 pi f)^2 or (2 pi f)^4, which no stretch's ends
 * disturb. Bins below the cut are 0.
 * @param channel as it was, in whose unit the density is
 */
export function integratedDensity(found: Density, channel: Channel, { goal, lowCut }: SpectrumGoal): Density {
  const times = timesTo(goal, channel.unit.dimension) ?? 1;
  const scale = channel.unit.factor / resultUnit[goal].factor;
  const density = found.density.map((value, k) => {
    const frequency = k * found.step;
    if (frequency < lowCut * (1 - 1e-9)) return 0;
    const omega = 2 * Math.PI * frequency;
    return value * (scale / (times === 1 ? omega : omega * omega)) ** 2;
  });
  return { ...found, density };
}
