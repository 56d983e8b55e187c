import { band } from './band.ts';
import { bandpass } from './bandpass.ts';
import { channel } from './channel.ts';
import { claim } from './claim.ts';
import { check } from './check.ts';
import { compare } from './compare.ts';
import { detrend } from './detrend.ts';
import { withExcluded } from './excludedRuns.ts';
import { functions } from './functions.ts';
import { highpass } from './highpass.ts';
import { integrate } from './integrate.ts';
import { levels } from './levels.ts';
import { load } from './load.ts';
import { lowpass } from './lowpass.ts';
import { order } from './order.ts';
import { orders } from './orders.ts';
import { peaks } from './peaks.ts';
import { plan } from './plan.ts';
import { plot } from './plot.ts';
import { profile } from './profile.ts';
import { repeats } from './repeats.ts';
import { resample } from './resample.ts';
import { resultant } from './resultant.ts';
import { running } from './running.ts';
import { sheet } from './sheet.ts';
import { spectrogram } from './spectrogram.ts';
import { spectrum } from './spectrum.ts';
import { table } from './table.ts';
import { transfer } from './transfer.ts';
import { trim } from './trim.ts';
import type { Verb } from './verb.ts';
import { weight } from './weight.ts';
import { window } from './window.ts';

/** Every verb of the language, in the order in which a study uses them. */
export const verbs: readonly Verb[] = [
  plan,
  repeats,
  order,
  sheet,
  load,
  check,
  channel,
  resultant,
  trim,
  detrend,
  highpass,
  lowpass,
  bandpass,
  resample,
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
  profile,
  compare,
  claim,
  plot,
  table,
].map(withExcluded);

const byName = new Map(verbs.map((verb) => [verb.form.verb, verb]));
const functionsByName = new Map(functions.map((one) => [one.form.name, one]));

export const verbNamed = (name: string): Verb | undefined => byName.get(name);
export const functionNamed = (name: string): (typeof functions)[number] | undefined => functionsByName.get(name);
