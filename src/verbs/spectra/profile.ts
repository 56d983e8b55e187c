import { profileOf } from '../../analysis/spectra/profile.ts';
import { heldAgainst } from '../../analysis/spectra/profileAgainst.ts';
import { answerOf, quantityIn, valuesIn, type Verb } from '../verb.ts';

export const profile: Verb = {
  takesLong: true,
  needsNoSamples: true,
  form: {
    verb: 'profile',
    summary: 'Gives a density by its breakpoints, with its r.m.s., and holds spectra against it.',
    help: 'Breakpoints are joined by straight lines on log-log paper, as random-vibration specifications draw them. Between two of them the mean square is (S₂f₂ − S₁f₁)/(n + 1) with n = ln(S₂/S₁)/ln(f₂/f₁), or S₁f₁ ln(f₂/f₁) for n = −1; the r.m.s. is the root of the sum. Densities in metric units are written `m^2/s^4/Hz`. A slope of 3 dB an octave doubles the density with the frequency. It may stand in place of a density: it is that of the line from the breakpoint before, and of breakpoints before the first density that of the line to the next (`20 Hz 3 dB/octave, 80 Hz 0.04 g^2/Hz, 350 Hz 0 dB/octave, 2000 Hz -3 dB/octave`). The slope from each breakpoint to the next stands in the table. Example: 20 Hz 0.01, 80 Hz 0.04, 350 Hz 0.04, 2000 Hz 0.007 g²/Hz is 6.06 g r.m.s. `against` gives each spectrum’s r.m.s. in the profile’s range and the bins farthest off it; a bin with few averages lies several dB off by chance. A profile bound to a name can be given in place of breakpoints: `profile P against S`.',
    operands: [
      {
        name: 'points',
        doc: 'Frequency and density of each breakpoint, as in `20 Hz 0.01 g^2/Hz, 80 Hz 0.04 g^2/Hz`, or in place of a density the slope, as in `2000 Hz -3 dB/octave`; or a profile.',
        accepts: [
          { type: 'value', kinds: ['profile'] },
          { type: 'quantity', dimension: 'any', signed: true },
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
      'profile 20 Hz 3 dB/octave, 80 Hz 0.04 g^2/Hz, 350 Hz 0.04 g^2/Hz, 2000 Hz -3 dB/octave',
      'limit = profile 5 Hz 0.002 g^2/Hz, 20 Hz 0.004 g^2/Hz, 100 Hz 0.0005 g^2/Hz\nfoam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nprofile limit against (spectrum foam)',
    ],
  },
  evaluate(given) {
    const { points = [] } = given.operands;
    const breakpoints = points.flatMap((argument) => quantityIn(argument) ?? []);
    const profile = profileOf(valuesIn(points, 'profile'), breakpoints);
    if (!profile.ok) return profile;
    const against = valuesIn(given.options.against ?? [], 'spectrum').at(0);
    return answerOf(against === undefined ? profile : heldAgainst(profile.value, against));
  },
};
