import { median } from '../clock/steps.ts';
import type { Finding } from '../recording.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import { measured, type CheckedRun, type Question } from './checked.ts';
import { meanVector } from './gravity.ts';
import { blocksOf } from './stationarity.ts';
import { acosOf } from '../../numbers/arcs.ts';

/** A run of a set, by the name it has in legends. */
export interface NamedRun extends CheckedRun {
  readonly label: string;
  /** As the run sheet has it, in whatever unit all runs have it in. */
  readonly speed?: number | undefined;
}

/** A finding on one run as it stands beside the others; `run` is its index in the set. */
export interface SetFinding {
  readonly run: number;
  readonly finding: Finding;
}

/** One comparison of a run with the set. */
export type SetCheck = (runs: readonly NamedRun[], question?: Question) => SetFinding[];

/** Rates that differ: the sensor's clock or its setting was changed. */
export const sameRate: SetCheck = (runs) => {
  const usual = median(Float64Array.from(runs, ({ rate }) => rate));
  return runs.flatMap(({ rate, label }, run) => {
    const off = rate / usual - 1;
    if (Math.abs(off) <= settings.between.rate) return [];
    const facts = { run: label, rate, usual };
    return [{ run, finding: finding('set-rate', 'warning', facts, { value: off, threshold: settings.between.rate }) }];
  });
};

const seconds = ({ stretches, rate }: CheckedRun): number =>
  stretches.reduce((sum, { from, to }) => sum + to - from, 0) / rate;

/** Lengths that differ: another route, another speed, or a part cut off. */
export const sameLength: SetCheck = (runs) => {
  const usual = median(Float64Array.from(runs, seconds));
  return runs.flatMap((one, run) => {
    const ratio = seconds(one) / usual;
    const off = Math.max(ratio, 1 / ratio);
    if (!(off > settings.between.duration)) return [];
    const facts = { run: one.label, seconds: seconds(one), usual };
    return [
      { run, finding: finding('set-length', 'warning', facts, { value: off, threshold: settings.between.duration }) },
    ];
  });
};

/** Mean vectors that point another way than in the first run: the sensor was mounted anew, and axes are mixed. */
export const sameGravity: SetCheck = (runs) => {
  const vectors = runs.map(meanVector);
  const first = vectors.findIndex((vector) => vector !== undefined && Math.hypot(...vector) > settings.norm.none);
  if (first < 0) return [];
  const reference = vectors[first]!;
  return runs.flatMap(({ label }, run) => {
    const vector = vectors[run];
    if (run === first || !vector || Math.hypot(...vector) <= settings.norm.none) return [];
    const along =
      vector.reduce((sum, value, k) => sum + value * reference[k], 0) /
      (Math.hypot(...vector) * Math.hypot(...reference));
    const angle = (acosOf(Math.min(1, Math.max(-1, along))) * 180) / Math.PI;
    const { warning, fault } = settings.between.angle;
    if (angle <= warning) return [];
    const facts = { run: label, first: runs[first].label, angle };
    const [severity, threshold] = angle > fault ? (['fault', fault] as const) : (['warning', warning] as const);
    return [{ run, finding: finding('set-gravity', severity, facts, { value: angle, threshold }) }];
  });
};

/** Levels of the quietest second that differ: another noise floor, another mount, or an engine that was left running. */
export const sameStill: SetCheck = (runs) => {
  const still = runs.map((run) =>
    Math.sqrt(
      blocksOf(run, settings.between.stillBlock).reduce((least, { power }) => Math.min(least, power), Infinity),
    ),
  );
  const usable = still.filter((level) => Number.isFinite(level) && level > 0);
  const units = new Set(runs.flatMap((run) => measured(run).map(({ unit }) => unit)));
  if (usable.length < 2 || units.size > 1) return [];
  const usual = median(Float64Array.from(usable));
  const [unit] = units;
  return runs.flatMap(({ label }, run) => {
    const level = still[run];
    const off = Math.max(level / usual, usual / level);
    if (!Number.isFinite(off) || off <= settings.between.still) return [];
    const facts = { run: label, seconds: settings.between.stillBlock, level, unit, usual };
    return [{ run, finding: finding('set-still', 'note', facts, { value: off, threshold: settings.between.still }) }];
  });
};

/** Channels that a run lacks. */
export const sameChannels: SetCheck = (runs) => {
  const names = [...new Set(runs.flatMap(({ channels }) => channels.map(({ name }) => name)))];
  return runs.flatMap(({ channels, label }, run) => {
    const lacking = names.filter((name) => !channels.some((one) => one.name === name));
    if (lacking.length === 0) return [];
    const basis = { value: lacking.length, threshold: 0 };
    return [{ run, finding: finding('set-channels', 'warning', { run: label, lacking }, basis) }];
  });
};

/** Runs with the very same samples: one recording that was copied under two names is no repeat. */
export const sameRecording: SetCheck = (runs) => {
  const before = new Map<string, NamedRun[]>();
  return runs.flatMap((one, run) => {
    const alike = before.get(glance(one));
    if (alike === undefined) before.set(glance(one), [one]);
    else alike.push(one);
    const twin = alike?.find((other) => other !== one && identical(one, other));
    if (twin === undefined) return [];
    const basis = { value: 1, threshold: 0 };
    return [{ run, finding: finding('set-copy', 'fault', { run: one.label, twin: twin.label }, basis) }];
  });
};

/** What recordings with the very same samples have in common, and hardly any others: of thousands not each is held against each. */
const glance = ({ channels }: CheckedRun): string =>
  channels.map(({ samples }) => [samples.length, samples[0], samples[samples.length >> 1]].join(' ')).join(', ');

function identical(a: CheckedRun, b: CheckedRun): boolean {
  const pairs = a.channels.map((one, k) => [one.samples, b.channels[k]?.samples] as const);
  return (
    a.channels.length === b.channels.length &&
    pairs.every(
      ([one, two]) => one.length > 1 && one.length === two.length && one.every((value, i) => value === two[i]),
    ) &&
    a.channels.some(({ samples }) => samples.some((value) => value !== samples[0]))
  );
}
