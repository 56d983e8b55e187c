import { overOrders } from '../../signal/orders.ts';
import { dimensionOf, sameDimension } from '../../units/dimension.ts';
import { formatQuantity } from '../../units/format.ts';
import { unit } from '../../units/parse.ts';
import type { Unit } from '../../units/unit.ts';
import { densityOf } from '../../analysis/spectra/density.ts';
import { option, quantityIn, si, valueOf } from '../arguments.ts';
import { whyNoFrequencies } from '../../analysis/spectra/orderAxis.ts';
import type { SpectrumAxis, SpectrumEntry, SpectrumMean, SpectrumValue } from '../../values/spectrum.ts';
import { answer, type Verb } from '../verb.ts';
import { refuse } from '../../result/result.ts';

export const orders: Verb = {
  form: {
    verb: 'orders',
    summary: 'Gives a spectrum over cycles per metre, or over orders of a turning rate.',
    help: 'Each frequency is divided by the speed: `by 1.2 m/s` gives cycles per metre of way, `by 3.3 Hz` (or rpm) gives orders, cycles per turn. A density becomes unit² per order, so that its area, the mean square, stays what it was; the height of a line stays. What repeats on the way (a joint, a spoke, a turn) keeps its order when the speed changes; what resonates keeps its frequency. One speed holds for the whole spectrum: a run whose speed wandered by 5 % smears every order by 5 %. Plot spectra of different speeds over orders to see which peaks the way makes.',
    operands: [{ name: 'spectrum', doc: 'The spectrum.', accepts: [{ type: 'value', kinds: ['spectrum'] }] }],
    options: [
      {
        keyword: 'by',
        doc: 'The speed, or the turning rate.',
        accepts: [
          { type: 'quantity', dimension: 'speed', above: 0 },
          { type: 'quantity', dimension: 'frequency', above: 0 },
        ],
      },
    ],
    gives: 'spectrum',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\norders (spectrum foam) by 1.2 m/s',
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\norders (spectrum foam) by rotation_rate(1.2 m/s, 1.9 m)',
    ],
  },
  evaluate(given) {
    const spectrum = valueOf(given, 'spectrum', 'spectrum');
    const twice = whyNoFrequencies(spectrum, 'spectrum');
    if (twice !== undefined) return twice;
    const speed = quantityIn(option(given, 'by'));
    if (speed === undefined)
      return refuse(
        'orders.speed',
        'orders needs the speed, as in "orders S by 1.2 m/s", or the turning rate.',
        'spectrum',
      );
    const way = sameDimension(speed.unit.dimension, dimensionOf('speed'));
    if (!way && !sameDimension(speed.unit.dimension, dimensionOf('frequency')))
      return refuse('orders.unit', 'Orders are by a speed, such as 1.2 m/s, or a turning rate, such as 3.3 Hz.', 'by');
    if (!(si(speed) > 0)) return refuse('orders.speed', 'Orders need a speed above 0.', 'by');
    const axis: SpectrumAxis = {
      name: way ? 'cycles per metre' : 'order',
      unit: unit(way ? '1/m' : ''),
      by: formatQuantity(speed),
    };
    return answer(divided(spectrum, axis, si(speed)));
  },
};

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
function orderDensityUnit({ symbol }: Unit, axis: SpectrumAxis): Unit {
  const squared = symbol === '' ? '' : /[*/^]/.test(symbol) ? `(${symbol})^2` : `${symbol}^2`;
  if (axis.unit.symbol === '') return unit(squared);
  return unit(squared === '' ? 'm' : `${squared}*m`);
}
