import { answered, success, type Answer, type Result, type Warning } from '../../result/result.ts';
import { axisCalibration } from '../../statistics/stillPositions.ts';
import { sameDimension } from '../../units/dimension.ts';
import { unit as unitOf } from '../../units/parse.ts';
import type { Unit } from '../../units/unit.ts';
import type { CalibrationPosition, CalibrationRow, CalibrationValue } from '../../values/calibration.ts';
import { changed } from '../../values/resultant.ts';
import { signalsOf, type Run, type Signal } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { refuse, tell } from '../messages/calibration.ts';
import { isAcceleration } from './dimensions.ts';
import { sensorOf } from './sensors.ts';
import { acosOf, asinOf } from '../../numbers/arcs.ts';
import { cosOf } from '../../numbers/trigonometry.ts';

/** Most that a still sensor moves, in g r.m.s.; an axis within 25° of gravity is along it (engineering choices). */
const stillest = 0.05;
const along = cosOf((25 * Math.PI) / 180);
/** Length in g of a mean that may be gravity. */
const [shortest, longest] = [0.7, 1.3];
/** Scatter about the line, in degrees of tilt, that is told. */
const tilted = 3;

const axes = ['x', 'y', 'z'] as const;

/** The means of a still position's axes in g, by standard gravity. */
interface Still {
  readonly run: Run;
  readonly means: readonly number[];
}

/**
 * Offset and sensitivity of x, y and z from still positions, a run each: of three and more by a line through each axis' means
 * (see `axisCalibration`), the axis nearest to gravity taken as along it and the others as across. A position that is tilted by
 * d reads cos d of gravity, 0.06 % less at 2°, and sin d across, which the scatter about the line shows. Of one position a
 * common factor. Refuses what is not still, no acceleration, or too oblique to be told.
 *
 * @param gravity where the sensor lay, in m/s^2
 */
export function calibrated({ runs }: RunsValue, gravity: number): Answer<CalibrationValue> {
  const stills: Still[] = [];
  for (const run of runs) {
    const still = stillOf(run);
    if (!still.ok) return still;
    stills.push(still.value);
  }
  const [{ unit }] = signalsOf(runs[0]).filter(({ unit: own }) => isAcceleration(own));
  const of = scaleOf(unit, gravity);
  if (stills.length === 1) return onePosition(stills[0], unit, of);
  const oblique = stills.find((still) => alongOf(still) === undefined);
  if (oblique !== undefined)
    return refuse('calibrate.oblique', { run: oblique.run.label, degrees: angleOf(oblique) }, 'runs');
  const acting = axes.map((_, axis) => stills.map((still) => actsOn(axis, still)));
  const lines = axes.map((_, axis) =>
    axisCalibration(
      acting[axis],
      stills.map(({ means }) => means[axis]),
    ),
  );
  const lacking = axes.filter((_, axis) => lines[axis] === undefined || stills.length < 3);
  if (lacking.length > 0) return refuse('calibrate.positions', { lacking, positions: stills.length }, 'runs');
  const rows = axes.map((axis, k) => rowOf(axis, lines[k]!, of));
  const positions = stills.map((still): CalibrationPosition => ({ run: still.run, along: alongOf(still) }));
  return answered(
    { kind: 'calibration', unit, gravity: of.gravity, positions, rows },
    rows.flatMap((row) => doubtOf(row, of)),
  );
}

/** From g by standard gravity to the unit, and what gravity is there in both. */
interface Scale {
  readonly perG: number;
  readonly gravity: number;
  readonly local: number;
}

function scaleOf(unit: Unit, gravity: number): Scale {
  const perG = unitOf('g').factor / unit.factor;
  return { perG, gravity: gravity / unit.factor, local: gravity / unitOf('g').factor };
}

function stillOf(run: Run): Result<Still> {
  const signals = axes.map((axis) => signalsOf(run).find(({ name, unit }) => name === axis && isAcceleration(unit)));
  const there = signals.filter((signal) => signal?.includesStatic === true);
  if (there.length < axes.length)
    return refuse('calibrate.axes', { run: run.label, axes: there.flatMap((one) => one?.name ?? []) }, 'runs');
  const means: number[] = [];
  for (const { name, samples, unit } of signals.flatMap((one) => one ?? [])) {
    const size = unit.factor / unitOf('g').factor;
    const mean = samples.reduce((sum, one) => sum + one, 0) / samples.length;
    const rms = size * Math.sqrt(samples.reduce((sum, one) => sum + (one - mean) ** 2, 0) / samples.length);
    if (!(rms <= stillest)) return refuse('calibrate.moving', { run: run.label, axis: name, rms }, 'runs');
    means.push(mean * size);
  }
  const length = Math.hypot(...means);
  if (!(length >= shortest && length <= longest)) return refuse('calibrate.length', { run: run.label, length }, 'runs');
  return success({ run, means });
}

const mostOf = ({ means }: Still): number =>
  means.reduce((best, one, k) => (Math.abs(one) > Math.abs(means[best]) ? k : best), 0);

const angleOf = (still: Still): number =>
  (acosOf(Math.abs(still.means[mostOf(still)]) / Math.hypot(...still.means)) * 180) / Math.PI;

/** `+z` where gravity reads as so much along z. */
function alongOf(still: Still): string | undefined {
  const axis = mostOf(still);
  if (Math.abs(still.means[axis]) < along * Math.hypot(...still.means)) return undefined;
  return `${still.means[axis] > 0 ? '+' : '−'}${axes[axis]}`;
}

/** Gravity along the axis, its opposite, or nothing across it, as a multiple of gravity. */
const actsOn = (axis: number, still: Still): number => (mostOf(still) === axis ? Math.sign(still.means[axis]) : 0);

function rowOf(axis: string, line: NonNullable<ReturnType<typeof axisCalibration>>, of: Scale): CalibrationRow {
  // The line is of readings in standard g over multiples of gravity where the sensor lay.
  const { offset, sensitivity, offsetUncertainty, sensitivityUncertainty, df, scatter } = line;
  return {
    axis,
    offset: offset * of.perG,
    sensitivity: sensitivity / of.local,
    offsetUncertainty: offsetUncertainty && offsetUncertainty * of.perG,
    sensitivityUncertainty: sensitivityUncertainty && sensitivityUncertainty / of.local,
    df,
    scatter: scatter && scatter * of.perG,
  };
}

function doubtOf({ axis, scatter }: CalibrationRow, { gravity }: Scale): Warning[] {
  const degrees = (asinOf(Math.min(1, (scatter ?? 0) / gravity)) * 180) / Math.PI;
  return degrees > tilted ? [tell('calibrate.tilted', { axis, degrees })] : [];
}

function onePosition({ run, means }: Still, unit: Unit, of: Scale): Answer<CalibrationValue> {
  const sensitivity = Math.hypot(...means) / of.local;
  const none = { offsetUncertainty: undefined, sensitivityUncertainty: undefined, scatter: undefined };
  const rows = axes.map((axis): CalibrationRow => ({ axis, offset: 0, sensitivity, df: 0, ...none }));
  const value = {
    kind: 'calibration',
    unit,
    gravity: of.gravity,
    positions: [{ run, along: undefined }],
    rows,
  } as const;
  return answered(value, [tell('calibrate.one', { run: run.label, sensitivity })]);
}

/**
 * A run with the offset taken off each axis and its reading divided by the sensitivity, whose relative uncertainty goes on with
 * what is read off it. Refuses an axis that the calibration does not hold.
 */
export function withCalibration(run: Run, calibration: CalibrationValue): Result<Run> {
  for (const { name, unit } of signalsOf(run)) {
    if (!calibration.rows.some(({ axis }) => axis === name))
      return refuse(
        'calibration.axis',
        { run: run.label, axis: name, known: calibration.rows.map(({ axis }) => axis) },
        'calibration',
      );
    if (!sameDimension(unit.dimension, calibration.unit.dimension))
      return refuse('calibration.unit', { run: run.label, axis: name, unit: unit.symbol }, 'calibration');
  }
  const channels = run.channels.map((channel) =>
    changed(channel, (signal) => correctedBy(calibration, signal, sensorOf(run))),
  );
  const words = `calibrated from ${calibration.positions.length} still positions`;
  return success({ ...run, channels, history: [...run.history, words] });
}

function correctedBy({ rows, unit }: CalibrationValue, signal: Signal, sensor: string): Signal {
  const row = rows.find(({ axis }) => axis === signal.name)!;
  const offset = (row.offset * unit.factor) / signal.unit.factor;
  const { sensitivity, sensitivityUncertainty, df } = row;
  const { written } = signal;
  return {
    ...signal,
    samples: signal.samples.map((reading) => (reading - offset) / sensitivity),
    ...(written === undefined ? {} : { written: { ...written, step: written.step / sensitivity } }),
    ...(sensitivityUncertainty === undefined
      ? {}
      : {
          calibration: { relative: sensitivityUncertainty / sensitivity, sensor, axis: signal.name, df },
        }),
  };
}
