import { success, type Result } from '../../result/result.ts';
import { overOrders } from '../../signal/orders.ts';
import { roundedSI } from '../../units/arithmetic.ts';
import { dimensionOf, sameDimension } from '../../units/dimension.ts';
import { formatQuantity, formatSpread } from '../../units/format.ts';
import { squaredSymbol, unit } from '../../units/parse.ts';
import type { Quantity, Unit } from '../../units/unit.ts';
import type { SpectrumAxis, SpectrumEntry, SpectrumMean, SpectrumValue } from '../../values/spectrum.ts';
import { refuse } from '../messages/spectra.ts';
import { densityOf } from './density.ts';
import { speedOf, type RunSpeed } from '../recordings/turningRate.ts';
import { whyNoFrequencies } from './orderAxis.ts';
import { meansOf } from './spectrumMean.ts';

/**
 * Every spectrum over orders or cycles per metre by the figure that the run sheet has of its run; means over runs where they then
 * share an axis. Refuses a spectrum that is over orders already, and runs without a figure.
 * @param column of speeds or turning rates, without its unit
 */
export function spectrumBySheet(spectrum: SpectrumValue, column: string): Result<SpectrumValue> {
  const twice = whyNoFrequencies(spectrum, 'spectrum');
  if (twice !== undefined) return twice;
  const speeds: RunSpeed[] = [];
  for (const { run } of spectrum.entries) {
    const speed = speedOf(run, column);
    if (!('rate' in speed)) return refuse('orders.column', speed, 'column');
    speeds.push(speed);
  }
  // One column has one unit.
  const [{ isOfWay }] = speeds;
  const figures = formatSpread(speeds.map(({ rate }) => rate));
  const axis = axisOf(isOfWay, `${column} by the run sheet, ${figures} ${isOfWay ? 'm/s' : 'Hz'}`);
  const entries = spectrum.entries.map((entry, k) => dividedEntry(spectrum, entry, axis, speeds[k].rate));
  return success({ ...spectrum, axis, entries, means: meansOf(entries, spectrum.form, spectrum.confidence) });
}

const axisOf = (isOfWay: boolean, by: string): SpectrumAxis => ({
  name: isOfWay ? 'cycles per metre' : 'order',
  unit: unit(isOfWay ? '1/m' : ''),
  by,
});

/**
 * A spectrum over cycles per metre, or over orders of a turning rate: each frequency divided by the speed. A density
 * becomes unit^2 per order, so that its area stays; the height of a line stays. Refuses a spectrum that is over orders
 * already, and a missing speed.
 * @param speed a speed or a frequency, above 0
 */
export function spectrumOverOrders(spectrum: SpectrumValue, speed: Quantity | undefined): Result<SpectrumValue> {
  const twice = whyNoFrequencies(spectrum, 'spectrum');
  if (twice !== undefined) return twice;
  if (speed === undefined) return refuse('orders.speed', {}, 'spectrum');
  const way = sameDimension(speed.unit.dimension, dimensionOf('speed'));
  return success(divided(spectrum, axisOf(way, formatQuantity(speed)), roundedSI(speed)));
}

/** Curves over orders: densities grow as their axis shrinks; the heights of lines stay. */
function scaled<T extends SpectrumEntry | SpectrumMean>(
  form: SpectrumValue['form'],
  of: T,
  densityUnit: Unit,
  speed: number,
): T {
  const amplitude = form === 'amplitude';
  const scale = amplitude ? 1 : speed;
  return {
    ...of,
    unit: amplitude ? of.unit : densityUnit,
    spacing: of.spacing / speed,
    level: of.level.map((value) => value * scale),
    low: of.low.map((value) => value * scale),
    high: of.high.map((value) => value * scale),
  };
}

const dividedEntry = (
  { form }: SpectrumValue,
  entry: SpectrumEntry,
  axis: SpectrumAxis,
  speed: number,
): SpectrumEntry => ({
  ...scaled(form, entry, orderDensityUnit(entry.channel.unit, axis), speed),
  noiseBandwidth: entry.noiseBandwidth / speed,
  density: overOrders(densityOf(entry), speed).density,
});

function divided(spectrum: SpectrumValue, axis: SpectrumAxis, speed: number): SpectrumValue {
  const unitOf = (channel: string): Unit => {
    const entry = spectrum.entries.find((one) => one.channel.name === channel)!;
    return orderDensityUnit(entry.channel.unit, axis);
  };
  return {
    ...spectrum,
    axis,
    entries: spectrum.entries.map((entry) => dividedEntry(spectrum, entry, axis, speed)),
    means: spectrum.means.map((mean) => scaled(spectrum.form, mean, unitOf(mean.channel), speed)),
  };
}

/** `g^2*m` over cycles per metre, `g^2` over orders. */
export function orderDensityUnit(of: Unit, axis: Pick<SpectrumAxis, 'unit'>): Unit {
  const squared = squaredSymbol(of);
  if (axis.unit.symbol === '') return unit(squared);
  return unit(squared === '' ? 'm' : `${squared}*m`);
}
