import { median } from '../clock/steps.ts';
import { finding } from '../messages.ts';
import { settings } from '../settings.ts';
import type { SeenRun, SetCheck } from './seen.ts';
import { acosOf } from '../../numbers/arcs.ts';

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

/** Lengths that differ: another route, another speed, or a part cut off. */
export const sameLength: SetCheck = (runs) => {
  const usual = median(Float64Array.from(runs, ({ seconds }) => seconds));
  return runs.flatMap(({ label, seconds }, run) => {
    const off = Math.max(seconds / usual, 1 / (seconds / usual));
    if (!(off > settings.between.duration)) return [];
    const facts = { run: label, seconds, usual };
    return [
      { run, finding: finding('set-length', 'warning', facts, { value: off, threshold: settings.between.duration }) },
    ];
  });
};

/** Mean vectors that point another way than in the first run: the sensor was mounted anew, and axes are mixed. */
export const sameGravity: SetCheck = (runs) => {
  const vectors = runs.map(({ gravity }) => gravity);
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
  const still = runs.map(({ stillest }) => stillest);
  const usable = still.filter((level) => Number.isFinite(level) && level > 0);
  const units = new Set(runs.flatMap((run) => run.units));
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
  const names = [...new Set(runs.flatMap(({ channels }) => channels))];
  return runs.flatMap(({ channels, label }, run) => {
    const lacking = names.filter((name) => !channels.includes(name));
    if (lacking.length === 0) return [];
    const basis = { value: lacking.length, threshold: 0 };
    return [{ run, finding: finding('set-channels', 'warning', { run: label, lacking }, basis) }];
  });
};

/** Runs with the very same samples: one recording that was copied under two names is no repeat. */
export const sameRecording: SetCheck = (runs) => {
  const before = new Map<string, SeenRun>();
  return runs.flatMap(({ label, print }, run) => {
    if (print === undefined) return [];
    const twin = before.get(print);
    if (twin === undefined) {
      before.set(print, runs[run]);
      return [];
    }
    const basis = { value: 1, threshold: 0 };
    return [{ run, finding: finding('set-copy', 'fault', { run: label, twin: twin.label }, basis) }];
  });
};
