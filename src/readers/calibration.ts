import type { Channels } from './channels.ts';
import type { ReadOptions } from './recording.ts';
import { finding } from './messages.ts';
import { unitOfGravity, unsettled } from './unit.ts';
import { accelerationSize, unitSymbol } from './units.ts';

/** What one count is on each axis, in a unit of acceleration. */
export interface Calibration {
  readonly unit: string;
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

const key =
  /^(?:cal\w*|scale|scaling|sens\w*|gain|factor|lsb)[\s_-]*(?:factor|value)?[\s_-]*\(?([xyz])\)?$|^([xyz])[\s_-]*(?:axis)?[\s_-]*(?:cal\w*|scale|scaling|sens\w*|gain|factor)$/i;
const perCount = /^([+-]?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?)\s*(\S+?)\s*(?:\/|per)\s*(?:counts?|lsb|digits?|bits?)$/i;
const countsPer = /^([+-]?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?)\s*(?:counts?|lsb|digits?|bits?)\s*(?:\/|per)\s*(\S+)$/i;

/** The calibration that keys such as `calibration x: 0.0039 g/count` state, if they do for all three axes. */
export function calibrationOf(entries: readonly (readonly [string, string])[]): Calibration | undefined {
  const found: Partial<Record<string, number>> = {};
  const units = new Set<string>();
  for (const [name, value] of entries) {
    const match = key.exec(name.trim());
    const axis = (match?.[1] ?? match?.[2])?.toLowerCase();
    if (axis === undefined) continue;
    const direct = perCount.exec(value.trim());
    const inverse = direct ? null : countsPer.exec(value.trim());
    const unit = unitSymbol((direct ?? inverse)?.[2] ?? '');
    if (unit === undefined || accelerationSize(unit) === undefined) continue;
    units.add(unit);
    found[axis] = direct ? Number(direct[1]) : 1 / Number(inverse![1]);
  }
  const { x, y, z } = found;
  const [unit] = units;
  return units.size === 1 && [x, y, z].every((one) => one !== undefined && Number.isFinite(one))
    ? { unit, x: x!, y: y!, z: z! }
    : undefined;
}

/**
 * Applies a calibration that the file states, where the axes are still in counts: their mean vector is gravity after it
 * and not before. Whether it was applied is said in the remark on the unit.
 */
export function calibrated(named: Channels, calibration: Calibration, options: ReadOptions): Channels {
  if (options.unit !== undefined || named.unit.from === 'header') return named;
  const axes = (['x', 'y', 'z'] as const).map((axis) => named.channels.find((one) => one.name === axis && one.axis));
  if (axes.some((one) => one === undefined)) return named;
  const means = axes.map(
    (one) => one!.samples.reduce((sum, value) => sum + (Number.isNaN(value) ? 0 : value), 0) / one!.samples.length,
  );
  const factors = [calibration.x, calibration.y, calibration.z];
  const after = Math.hypot(...means.map((mean, i) => mean * factors[i]));
  if (unitOfGravity(after) !== calibration.unit) {
    if (named.unit.unit !== undefined) return named;
    return { ...named, unit: unsettled({ kind: 'calibration', calibration, length: after }) };
  }
  const channels = named.channels.map((one) => {
    const at = axes.indexOf(one);
    return at < 0
      ? one
      : {
          ...one,
          unit: calibration.unit,
          unitFrom: 'header' as const,
          samples: one.samples.map((value) => value * factors[at]),
        };
  });
  const remark = finding('calibrated', 'note', calibration);
  return { ...named, channels, unit: { unit: calibration.unit, from: 'header', remark } };
}
