import type { Warning } from '../../result/result.ts';
import type { StatedPower } from '../../statistics/comparison.ts';
import type { ComparisonValue } from '../../values/comparison.ts';
import type { SensorError } from '../../values/comparisonParts.ts';
import type { Run } from '../../values/run.ts';
import type { CalibrationFacts } from '../messages/methods.ts';
import { tell } from '../messages/evidence.ts';
import { sensorOf } from '../recordings/sensors.ts';
import { measuredIn, type Side, type Sides, type Track } from './sides.ts';

/**
 * A sensor whose sensitivity is known so well. All its runs read high or low alike, so that its error is in a change by as much as
 * the sensor has more part in one side than in the other: a power of 0, known to so much, of what is e in its runs and 1 in the others.
 */
export interface SensorShare extends StatedPower {
  readonly sensor: string;
  /** Relative standard uncertainty; undefined where none is stated. */
  readonly relative: number | undefined;
}

/** Each sensor of all sides, with its runs in the order of the sides. */
export function sensorShares(sides: Sides): SensorShare[] {
  const tracks = measuredIn(sides).flatMap((side) => side.tracks);
  const sensors = [...new Set(tracks.map(sensorOfTrack))];
  return sensors.map((sensor) => {
    const relative = statedOf(tracks, sensor);
    return {
      sensor,
      relative,
      uncertainty: relative ?? 0,
      logarithms: tracks.map((track) => (sensorOfTrack(track) === sensor ? 1 : 0)),
    };
  });
}

/** Below this share of a sensor its error falls out of a change. */
const noShare = 1e-9;

/**
 * What the sensitivity of the sensors leaves in ln of a change; nothing of a sensor that has the same part in both sides.
 *
 * @param apart how far each sensor's share in B is above that in A
 */
export const sensorErrors = (sensors: readonly SensorShare[], apart: readonly number[], axis: string): SensorError[] =>
  sensors.flatMap(({ sensor, relative }, k) =>
    relative === undefined || Math.abs(apart[k]) < noShare
      ? []
      : [{ sensor, axis, relative, size: apart[k] * relative }],
  );

/** Two sides that were recorded with different sensors, of which one has no stated calibration. */
export function sensorWarnings({ a, b }: Sides): Warning[] {
  const tracks = [...a.tracks, ...b.tracks];
  const differ = [...new Set(tracks.map(sensorOfTrack))].filter(
    (sensor) => Math.abs(shareOf(b, sensor) - shareOf(a, sensor)) >= noShare,
  );
  const unstated = differ.filter((sensor) => statedOf(tracks, sensor) === undefined);
  if (unstated.length === 0) return [];
  const [sensorsA, sensorsB] = [a, b].map((side) => [...new Set(side.tracks.map(sensorOfTrack))]);
  return [tell('compare.sensors', { a: a.name, b: b.name, sensorsA, sensorsB, unstated })];
}

/** What a paragraph on methods says of the sensors of runs. @param comparisons of them, whose changes may be between sensors */
export function calibrationFacts(runs: readonly Run[], comparisons: readonly ComparisonValue[]): CalibrationFacts {
  const tracks = runs.flatMap((run) => run.channels.map((channel) => ({ run, channel })));
  const sensors = [...new Set(tracks.map(sensorOfTrack))].flatMap((sensor) => {
    const relative = statedOf(tracks, sensor);
    return relative === undefined ? [] : [{ sensor, relative }];
  });
  return {
    sensors,
    isCompared: comparisons.length > 0,
    isBetweenSensors: comparisons.some(({ rows }) => rows.some((row) => row.sensors !== undefined)),
  };
}

const sensorOfTrack = ({ run }: Track): string => sensorOf(run);

const shareOf = ({ tracks }: Side, sensor: string): number =>
  tracks.filter((track) => sensorOfTrack(track) === sensor).length / tracks.length;

/** The largest that is stated of a sensor, where several are. */
function statedOf(tracks: readonly Track[], sensor: string): number | undefined {
  const stated = tracks.flatMap((track) =>
    sensorOfTrack(track) === sensor ? (track.channel.calibration?.relative ?? []) : [],
  );
  return stated.length === 0 ? undefined : Math.max(...stated);
}
