import { band } from './band.ts';
import { highpass } from './highpass.ts';
import { lowpass } from './lowpass.ts';
import { bandpass } from './bandpass.ts';
import { resample } from './resample.ts';
import { weight } from './weight.ts';
import { integrate } from './integrate.ts';
import { channel } from './channel.ts';
import { compare } from './compare.ts';
import { detrend } from './detrend.ts';
import { functions } from './functions.ts';
import { levels } from './levels.ts';
import { load } from './load.ts';
import { plot } from './plot.ts';
import { resultant } from './resultant.ts';
import { spectrum } from './spectrum.ts';
import { table } from './table.ts';
import { trim } from './trim.ts';
import type { Verb } from './verb.ts';
import { window } from './window.ts';

/** Every verb of the language, in the order in which a study uses them. */
export const verbs: readonly Verb[] = [
  load,
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
  window,
  spectrum,
  band,
  compare,
  plot,
  table,
];

const byName = new Map(verbs.map((verb) => [verb.form.verb, verb]));
const functionsByName = new Map(functions.map((one) => [one.form.name, one]));

export const verbNamed = (name: string): Verb | undefined => byName.get(name);
export const functionNamed = (name: string): (typeof functions)[number] | undefined => functionsByName.get(name);
