import { messages } from '../../result/messages.ts';
import { listed } from '../../result/words.ts';
import { formatNumber } from '../../units/format.ts';

export interface CalibrationFacts {
  'calibrate.axes': { readonly run: string; readonly axes: readonly string[] };
  'calibrate.moving': { readonly run: string; readonly axis: string; readonly rms: number };
  'calibrate.oblique': { readonly run: string; readonly degrees: number };
  'calibrate.positions': { readonly lacking: readonly string[]; readonly positions: number };
  'calibrate.length': { readonly run: string; readonly length: number };
  'calibrate.one': { readonly run: string; readonly sensitivity: number };
  'calibrate.tilted': { readonly axis: string; readonly degrees: number };
  'calibration.axis': { readonly run: string; readonly axis: string; readonly known: readonly string[] };
  'calibration.unit': { readonly run: string; readonly axis: string; readonly unit: string };
}

/** What is said of still positions, and of a calibration where it is applied. */
export const { tell, refuse } = messages<CalibrationFacts>({
  'calibrate.axes': ({ run, axes }) =>
    `${run} has ${axes.length === 0 ? 'no axis of acceleration' : `only ${listed(axes)}`}: a still position is told from x, y and z, all with their means (before any highpass or detrend).`,
  'calibrate.moving': ({ run, axis, rms }) =>
    `${run} is not still: ${axis} moves by ${formatNumber(rms, 2)} g r.m.s. Trim it to where the sensor lies, or record it again.`,
  'calibrate.oblique': ({ run, degrees }) =>
    `In ${run} no axis lies within 25° of gravity (the nearest ${formatNumber(degrees, 2)}°), so it can't be told which position it is: lay the sensor on one of its faces.`,
  'calibrate.positions': ({ lacking, positions }) =>
    `${positions} positions tell ${listed(lacking)} apart from nothing: each axis needs one position up or down and one other, and three positions in all. Usual are six, each axis up and down; one alone gives a common factor.`,
  'calibrate.length': ({ run, length }) =>
    `The mean of ${run} is ${formatNumber(length, 3)} g long, which is no gravity: check its unit and scale first.`,
  'calibrate.one': ({ run, sensitivity }) =>
    `One position (${run}) gives one factor for all axes, ${formatNumber(sensitivity, 4)}, and holds only if none of them has an offset: neither offsets nor an uncertainty can be told from it; take six.`,
  'calibrate.tilted': ({ axis, degrees }) =>
    `The readings of ${axis} scatter about their line as if the faces lay ${formatNumber(degrees, 2)}° off level: the uncertainty says so; a level or a square block makes it smaller.`,
  'calibration.axis': ({ run, axis, known }) =>
    `The calibration has no ${axis}, which ${run} has; it is of ${listed(known)}. Load only those, as in "channel z".`,
  'calibration.unit': ({ run, axis, unit }) =>
    `${axis} of ${run} is in ${unit === '' ? 'a plain number' : unit}, and the calibration is of acceleration: state the unit as for the still positions.`,
});
