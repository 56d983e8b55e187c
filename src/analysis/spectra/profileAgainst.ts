import { success, type Result } from '../../result/result.ts';
import { compareWithProfile } from '../../signal/profile.ts';
import { sameDimension } from '../../units/dimension.ts';
import { densityUnit } from '../../units/parse.ts';
import type { ProfileAgainst, ProfileValue } from '../../values/profile.ts';
import type { SpectrumEntry, SpectrumValue } from '../../values/spectrum.ts';
import { refuse } from '../messages/spectra.ts';
import { densityOf, halfRate, isPast } from './density.ts';
import { whyNoFrequencies } from './orderAxis.ts';
import { log10Of } from '../../numbers/logarithm.ts';

/** Usual tolerance of a random-vibration test in dB of density. */
const tolerance = 3;

/**
 * The profile with each entry of a spectrum held against it: r.m.s. in the profile's range, the bins farthest off in
 * dB, and the share of bins more than 3 dB off. Refuses a spectrum over orders, one of another dimension, a profile
 * that reaches past half a run's rate, and one that no bin lies within.
 */
export function heldAgainst(profile: ProfileValue, spectrum: SpectrumValue): Result<ProfileValue> {
  const orders = whyNoFrequencies(spectrum, 'against');
  if (orders !== undefined) return orders;
  const against: ProfileAgainst[] = [];
  for (const entry of spectrum.entries) {
    const found = entryAgainst(profile, entry);
    if (!found.ok) return found;
    against.push(found.value);
  }
  return success({ ...profile, against });
}

function entryAgainst({ points, unit, rms }: ProfileValue, entry: SpectrumEntry): Result<ProfileAgainst> {
  const { run, channel, spacing } = entry;
  const own = densityUnit(channel.unit);
  if (!sameDimension(own.dimension, unit.dimension)) {
    const facts = {
      why: 'spectrum',
      run: run.label,
      channel: channel.name,
      own: own.symbol,
      unit: unit.symbol,
    } as const;
    return refuse('profile.unit', facts, 'against');
  }
  const last = points[points.length - 1].frequency;
  if (isPast(last, entry)) return refuse('profile.outside', { last, run: run.label, half: halfRate(entry) }, 'against');
  const scale = own.factor / unit.factor;
  const of = densityOf(entry);
  const found = compareWithProfile({ ...of, density: of.density.map((value) => value * scale) }, points);
  const bins = [...found.decibels.keys()].filter((k) => !Number.isNaN(found.decibels[k]));
  if (bins.length === 0) return refuse('profile.bins', { run: run.label }, 'against');
  const at = (k: number): ProfileAgainst['highest'] => ({ decibels: found.decibels[k], frequency: k * spacing });
  return success({
    run,
    channel,
    // The profile's own r.m.s. is in `rmsUnit`, whose size the root of unit x Hz may differ from.
    rms: (found.measuredRms / found.profileRms) * rms,
    decibels: 20 * log10Of(found.measuredRms / found.profileRms),
    highest: at(bins.reduce((most, k) => (found.decibels[k] > found.decibels[most] ? k : most))),
    lowest: at(bins.reduce((least, k) => (found.decibels[k] < found.decibels[least] ? k : least))),
    outside: bins.filter((k) => Math.abs(found.decibels[k]) > tolerance).length / bins.length,
  });
}
