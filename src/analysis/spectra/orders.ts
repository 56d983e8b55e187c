import { success, type Result } from '../../result/result.ts';
import { overOrders } from '../../signal/orders.ts';
import { roundedSI } from '../../units/arithmetic.ts';
import { dimensionOf, sameDimension } from '../../units/dimension.ts';
import { formatQuantity } from '../../units/format.ts';
import { squaredSymbol, unit } from '../../units/parse.ts';
import type { Quantity, Unit } from '../../units/unit.ts';
import type { SpectrumAxis, SpectrumEntry, SpectrumMean, SpectrumValue } from '../../values/spectrum.ts';
import { refuse } from '../messages/spectra.ts';
import { densityOf } from './density.ts';
import { whyNoFrequencies } from './orderAxis.ts';

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
  const axis: SpectrumAxis = {
    name: way ? 'cycles per metre' : 'order',
    unit: unit(way ? '1/m' : ''),
    by: formatQuantity(speed),
  };
  return success(divided(spectrum, axis, roundedSI(speed)));
}

function divided(spectrum: SpectrumValue, axis: SpectrumAxis, speed: number): SpectrumValue {
  const amplitude = spectrum.form === 'amplitude';
  /** Densities grow as their axis shrinks; the heights of lines stay. */
  const scale = amplitude ? 1 : speed;
  const scaled = <T extends SpectrumEntry | SpectrumMean>(of: T, densityUnit: Unit): T => ({
    ...of,
    unit: amplitude ? of.unit : densityUnit,
    spacing: of.spacing / speed,
    level: of.level.map((value) => value * scale),
    low: of.low.map((value) => value * scale),
    high: of.high.map((value) => value * scale),
  });
  const unitOf = (channel: string): Unit => {
    const entry = spectrum.entries.find((one) => one.channel.name === channel)!;
    return orderDensityUnit(entry.channel.unit, axis);
  };
  return {
    ...spectrum,
    axis,
    entries: spectrum.entries.map((entry) => ({
      ...scaled(entry, unitOf(entry.channel.name)),
      noiseBandwidth: entry.noiseBandwidth / speed,
      density: overOrders(densityOf(entry), speed).density,
    })),
    means: spectrum.means.map((mean) => scaled(mean, unitOf(mean.channel))),
  };
}

/** `g^2*m` over cycles per metre, `g^2` over orders. */
function orderDensityUnit(of: Unit, axis: SpectrumAxis): Unit {
  const squared = squaredSymbol(of);
  if (axis.unit.symbol === '') return unit(squared);
  return unit(squared === '' ? 'm' : `${squared}*m`);
}
