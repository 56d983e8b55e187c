import type { FindingsValue } from '../values/findings.ts';
import type { LevelsValue } from '../values/levels.ts';
import { grouped } from '../numbers/grouped.ts';
import type { Warning } from '../result/result.ts';
import type { RunningValue } from '../values/running.ts';
import type { RunsValue } from '../values/runs.ts';
import type { SpectrogramValue } from '../values/spectrogram.ts';
import type { SpectrumValue } from '../values/spectrum.ts';
import type { TransferValue } from '../values/transfer.ts';
import { toldAgain as ofRecordings } from './messages/recordings.ts';
import { toldAgain as ofSpectra } from './messages/spectra.ts';
import { findingsTogether } from './recordings/findings.ts';
import { meansOf } from './spectra/spectrumMean.ts';

type Joinable =
  FindingsValue | RunsValue | LevelsValue | RunningValue | SpectrumValue | SpectrogramValue | TransferValue;
type Joins = { readonly [K in Joinable['kind']]: (parts: readonly Extract<Joinable, { kind: K }>[]) => Joinable };

/** What each kind that is made run by run is of all its runs. What is of the set and of no run is made here. */
const joins: Joins = {
  runs: (parts) => ({ ...parts[0], runs: parts.flatMap(({ runs }) => runs) }),
  levels: (parts) => {
    const rows = parts.flatMap(({ exposure }) => exposure?.rows ?? []);
    const exposure = parts.find(({ exposure }) => exposure !== undefined)?.exposure;
    return {
      ...parts[0],
      rows: parts.flatMap((part) => part.rows),
      ...(exposure === undefined ? {} : { exposure: { ...exposure, rows } }),
    };
  },
  running: (parts) => ({ ...parts[0], entries: parts.flatMap(({ entries }) => entries) }),
  spectrum: (parts) => {
    const entries = parts.flatMap((part) => part.entries);
    const [{ form, confidence }] = parts;
    return { ...parts[0], entries, means: meansOf(entries, form, confidence) };
  },
  spectrogram: (parts) => ({ ...parts[0], entries: parts.flatMap(({ entries }) => entries) }),
  findings: findingsTogether,
  transfer: (parts) => ({ ...parts[0], entries: parts.flatMap(({ entries }) => entries) }),
};

/**
 * The value of a set from those of its runs, each made by itself.
 * @param parts all of one kind and made the same way, in the order of the runs; at least one
 * @param set what the set is called
 */
export function joined(parts: readonly Joinable[], set: string | undefined): Joinable {
  const join = joins[parts[0].kind] as (parts: readonly Joinable[]) => Joinable;
  const value = join(parts);
  return 'set' in value ? { ...value, set } : value;
}

/** Whether values of a kind are joined. */
export const isJoinable = <V extends { readonly kind: string }>(value: V): value is V & Joinable =>
  Object.hasOwn(joins, value.kind);

/** The warnings of the runs of a set one by one, as they are told of the set: several that are the same once, naming the others. */
export function joinedWarnings(warnings: readonly Warning[]): Warning[] {
  const all = grouped(warnings, ({ about, code }, at) => (about === undefined ? at : `${code} ${about.sameFor ?? ''}`));
  const rankOf = ([{ about }]: readonly Warning[]): number => about?.rank ?? Infinity;
  return all.sort((a, b) => (rankOf(a) === rankOf(b) ? 0 : rankOf(a) - rankOf(b))).map(asOne);
}

function asOne([first, ...rest]: readonly Warning[]): Warning {
  if (first.about === undefined || rest.length === 0) return first;
  const { of, others: known } = first.about;
  const found = new Set(known);
  for (const { about } of rest)
    for (const one of about === undefined ? [] : [about.of, ...about.others]) found.add(one);
  found.delete(of);
  const others = [...found];
  const again = 'others' in first.facts ? (ofRecordings(first, { others }) ?? ofSpectra(first, { others })) : first;
  return { ...(again ?? first), about: { ...first.about, others } };
}
