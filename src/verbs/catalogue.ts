import type { Catalogue } from '../language/vocabulary.ts';
import { fieldsOf } from '../values/fields.ts';
import { hasUnits } from '../values/inUnit.ts';
import { kindNames, kinds } from '../values/kinds.ts';
import { agrees } from './evidence/agrees.ts';
import { band } from './spectra/band.ts';
import { bandpass } from './conditioning/bandpass.ts';
import { channel } from './recordings/channel.ts';
import { claim } from './evidence/claim.ts';
import { check } from './recordings/check.ts';
import { compare } from './evidence/compare.ts';
import { detrend } from './conditioning/detrend.ts';
import { envelope } from './conditioning/envelope.ts';
import { calibrate } from './recordings/calibrate.ts';
import { earlier } from './evidence/earlier.ts';
import { withExcluded, withoutLong } from './each.ts';
import { highpass } from './conditioning/highpass.ts';
import { integrate } from './conditioning/integrate.ts';
import { levels } from './spectra/levels.ts';
import { load } from './recordings/load.ts';
import { loggers } from './recordings/loggers.ts';
import { lowpass } from './conditioning/lowpass.ts';
import { order } from './design/order.ts';
import { orders } from './spectra/orders.ts';
import { peaks } from './spectra/peaks.ts';
import { plan } from './design/plan.ts';
import { plot } from './show/plot.ts';
import { pool } from './evidence/pool.ts';
import { profile } from './spectra/profile.ts';
import { repeats } from './design/repeats.ts';
import { resample } from './conditioning/resample.ts';
import { resultant } from './recordings/resultant.ts';
import { running } from './spectra/running.ts';
import { sheet } from './design/sheet.ts';
import { spectrogram } from './spectra/spectrogram.ts';
import { spectrum } from './spectra/spectrum.ts';
import { methods } from './show/methods.ts';
import { table } from './show/table.ts';
import { shock } from './spectra/shock.ts';
import { transfer } from './spectra/transfer.ts';
import { trim } from './recordings/trim.ts';
import { functions } from './functions.ts';
import type { Verb } from './verb.ts';
import { weight } from './conditioning/weight.ts';
import { window } from './spectra/window.ts';

/** Every verb of the language, in the order in which a study uses them. */
export const verbs: readonly Verb[] = [
  plan,
  repeats,
  order,
  sheet,
  load,
  calibrate,
  loggers,
  check,
  channel,
  resultant,
  trim,
  detrend,
  highpass,
  lowpass,
  bandpass,
  resample,
  envelope,
  integrate,
  weight,
  levels,
  running,
  window,
  spectrum,
  band,
  peaks,
  orders,
  spectrogram,
  transfer,
  shock,
  profile,
  compare,
  claim,
  agrees,
  earlier,
  pool,
  plot,
  table,
  methods,
].map((verb) => withExcluded(withoutLong(verb, worksOnAll)));

/** The verbs that work on recordings that are too large for memory. */
function worksOnAll(): string[] {
  return verbs.flatMap(({ takesLong, form }) => (takesLong === undefined ? [] : [form.verb]));
}

const byName = new Map(verbs.map((verb) => [verb.form.verb, verb]));

export const verbNamed = (name: string): Verb | undefined => byName.get(name);

/** The words of the language, as its checker and its services want them. */
export const catalogue: Catalogue = {
  verbs: verbs.map(({ form }) => form),
  functions: functions.map(({ form }) => form),
  kinds: kindNames.map((name) => ({
    name,
    words: kinds[name].words,
    fields: fieldsOf(name),
    units: hasUnits(name),
    picks: kinds[name].rows?.pick !== undefined,
  })),
};
