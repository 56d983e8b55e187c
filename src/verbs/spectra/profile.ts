import { compareWithProfile, profileMeanSquare, type Breakpoint } from '../../signal/profile.ts';
import { convert, multiply, quantity, root } from '../../units/arithmetic.ts';
import { combine, dimensionOf, sameDimension } from '../../units/dimension.ts';
import { formatQuantity } from '../../units/format.ts';
import { densityUnit } from '../../units/parse.ts';
import type { Quantity, Unit } from '../../units/unit.ts';
import { hertz } from '../../analysis/amounts.ts';
import { densityOf } from '../../analysis/spectra/density.ts';
import { option, si } from '../arguments.ts';
import { whyNoFrequencies } from '../../analysis/spectra/orderAxis.ts';
import type { SpectrumEntry, SpectrumValue } from '../../values/spectrum.ts';
import type { ProfileAgainst, ProfileValue } from '../../values/profile.ts';
import { answer, type Argument, type Verb } from '../verb.ts';
import { refuse, type Failure } from '../../result/result.ts';

/** Usual tolerance of a random-vibration test in dB of density. */
const tolerance = 3;

export const profile: Verb = {
  form: {
    verb: 'profile',
    summary: 'Gives a density by its breakpoints, with its r.m.s., and holds spectra against it.',
    help: 'Breakpoints are joined by straight lines on log-log paper, as random-vibration specifications draw them. Between two of them the mean square is (S₂f₂ − S₁f₁)/(n + 1) with n = ln(S₂/S₁)/ln(f₂/f₁), or S₁f₁ ln(f₂/f₁) for n = −1; the r.m.s. is the root of the sum. Densities in metric units are written `m^2/s^4/Hz`. A slope of 3 dB an octave doubles the density with the frequency. Example: 20 Hz 0.01, 80 Hz 0.04, 350 Hz 0.04, 2000 Hz 0.007 g²/Hz is 6.06 g r.m.s. `against` gives each spectrum’s r.m.s. in the profile’s range and the bins farthest off it; a bin with few averages lies several dB off by chance. A profile bound to a name can be given in place of breakpoints: `profile P against S`.',
    operands: [
      {
        name: 'points',
        doc: 'Frequency and density of each breakpoint, as in `20 Hz 0.01 g^2/Hz, 80 Hz 0.04 g^2/Hz`; or a profile.',
        accepts: [
          { type: 'value', kinds: ['profile'] },
          { type: 'quantity', dimension: 'any' },
        ],
        many: true,
      },
    ],
    options: [
      { keyword: 'against', doc: 'Spectra to hold against it.', accepts: [{ type: 'value', kinds: ['spectrum'] }] },
    ],
    gives: 'profile',
    examples: [
      'profile 20 Hz 0.01 g^2/Hz, 80 Hz 0.04 g^2/Hz, 350 Hz 0.04 g^2/Hz, 2000 Hz 0.007 g^2/Hz',
      'limit = profile 5 Hz 0.002 g^2/Hz, 20 Hz 0.004 g^2/Hz, 100 Hz 0.0005 g^2/Hz\nfoam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nprofile limit against (spectrum foam)',
    ],
  },
  evaluate(given) {
    const made = profileOf(given.operands.points);
    if ('ok' in made) return made;
    const against = option(given, 'against');
    if (against?.type !== 'value' || against.value.kind !== 'spectrum') return answer(made);
    const held = heldAgainst(made, against.value);
    return 'ok' in held ? held : answer({ ...made, against: held });
  },
};

type Refused = { ok: false; failure: Failure };

function profileOf(given: readonly Argument[]): ProfileValue | Refused {
  const [first] = given;
  if (first?.type === 'value' && first.value.kind === 'profile') {
    return given.length === 1 ? first.value : refuse('profile.mixed', 'Give one profile, or breakpoints.', 'points');
  }
  const quantities = given.flatMap((one) => (one.type === 'quantity' ? [one.quantity] : []));
  if (quantities.length !== given.length) return refuse('profile.mixed', 'Give one profile, or breakpoints.', 'points');
  const points: Breakpoint[] = [];
  const frequency = dimensionOf('frequency');
  const unit = quantities[1]?.unit;
  for (let i = 0; i < quantities.length; i += 2) {
    const [at, density] = quantities.slice(i, i + 2);
    if (!sameDimension(at.unit.dimension, frequency)) return refuse('profile.frequency', wantsPair(at), 'points');
    if (density === undefined)
      return refuse('profile.density', `The breakpoint at ${formatQuantity(at)} has no density.`, 'points');
    const sized = convert(density, unit);
    if (sized === undefined)
      return refuse(
        'profile.unit',
        `The densities of a profile are all of one kind, and ${formatQuantity(density)} is not in ${unit.symbol}.`,
        'points',
      );
    points.push({ frequency: si(at), density: sized.value });
  }
  return whyNoProfile(points, unit) ?? profileValue(points, unit);
}

const wantsPair = (found: Quantity): string =>
  `Each breakpoint is a frequency and a density, as in "20 Hz 0.01 g^2/Hz": a frequency is wanted where ${formatQuantity(found)} stands.`;

function whyNoProfile(points: readonly Breakpoint[], unit: Unit | undefined): Refused | undefined {
  if (points.length < 2 || unit === undefined)
    return refuse('profile.few', 'A profile needs at least two breakpoints, each a frequency and a density.', 'points');
  const rms = combine(unit.dimension, dimensionOf('frequency'), 1);
  if (Object.values(rms).some((exponent) => exponent % 2 !== 0))
    return refuse(
      'profile.unit',
      `A density is a unit squared per Hz, such as g^2/Hz, and ${unit.symbol || 'a plain number'} is not.`,
      'points',
    );
  for (const [i, { frequency, density }] of points.entries()) {
    if (!(frequency > 0 && density > 0))
      return refuse(
        'profile.zero',
        `Breakpoint ${i + 1} needs a frequency and a density above 0, for log-log paper.`,
        'points',
      );
    if (i > 0 && !(frequency > points[i - 1].frequency))
      return refuse(
        'profile.order',
        `The frequencies of a profile rise, and ${hertz(frequency)} follows ${hertz(points[i - 1].frequency)}.`,
        'points',
      );
  }
  return undefined;
}

function profileValue(points: readonly Breakpoint[], unit: Unit): ProfileValue {
  const rms = root(multiply({ value: profileMeanSquare(points), unit }, quantity(1, 'Hz')));
  return { kind: 'profile', unit, points, rms: rms.value, rmsUnit: rms.unit };
}

function heldAgainst(profile: ProfileValue, spectrum: SpectrumValue): ProfileAgainst[] | Refused {
  const orders = whyNoFrequencies(spectrum, 'against');
  if (orders !== undefined) return orders;
  const held: ProfileAgainst[] = [];
  for (const entry of spectrum.entries) {
    const found = againstOne(profile, entry);
    if ('failure' in found) return found;
    held.push(found);
  }
  return held;
}

function againstOne({ points, unit, rms }: ProfileValue, entry: SpectrumEntry): ProfileAgainst | Refused {
  const { run, channel, spacing, segmentSamples } = entry;
  const own = densityUnit(channel.unit);
  if (!sameDimension(own.dimension, unit.dimension))
    return refuse(
      'profile.unit',
      `The profile is in ${unit.symbol} and the spectrum of ${run.label}, ${channel.name}, in ${own.symbol}.`,
      'against',
    );
  const last = points[points.length - 1].frequency;
  const half = (spacing * segmentSamples) / 2;
  if (last > half * (1 + 1e-9)) {
    return refuse(
      'profile.outside',
      `The profile reaches to ${hertz(last)}, past half the rate of ${run.label}, which is ${hertz(half)}: end it there.`,
      'against',
    );
  }
  const scale = own.factor / unit.factor;
  const of = densityOf(entry);
  const found = compareWithProfile({ ...of, density: of.density.map((value) => value * scale) }, points);
  const bins = [...found.decibels.keys()].filter((k) => !Number.isNaN(found.decibels[k]));
  if (bins.length === 0)
    return refuse('profile.bins', `No bin of ${run.label} lies within the profile: take a longer window.`, 'against');
  const at = (k: number): ProfileAgainst['highest'] => ({ decibels: found.decibels[k], frequency: k * spacing });
  return {
    run,
    channel,
    // The profile's own r.m.s. is in `rmsUnit`, whose size the root of unit x Hz may differ from.
    rms: (found.measuredRms / found.profileRms) * rms,
    decibels: 20 * Math.log10(found.measuredRms / found.profileRms),
    highest: at(bins.reduce((most, k) => (found.decibels[k] > found.decibels[most] ? k : most))),
    lowest: at(bins.reduce((least, k) => (found.decibels[k] < found.decibels[least] ? k : least))),
    outside: bins.filter((k) => Math.abs(found.decibels[k]) > tolerance).length / bins.length,
  };
}
