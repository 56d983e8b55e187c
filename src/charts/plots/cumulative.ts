import type { SpectrumValue } from '../../values/spectrum.ts';
import { figureLabel, frequencyAxis, fromZero, legendRows, seriesLegend } from '../axes.ts';
import { binsToDraw } from '../decimate.ts';
import { axisTitle, capitalised, channelQuantity, distinct, listed, printedUnit } from '../names.ts';
import { drawn, significant } from '../number.ts';
import type { ChartPart } from '../output.ts';
import { acrossOf, placeOn, spectrumSeries, type Across, type NamedSpectrum, type SpectrumSeries } from '../series.ts';
import { chartPart, fullWidth, role, seriesColour, seriesDash } from '../specification.ts';
import type { OverlayOptions } from './overlay.ts';

const plotHeight = 160;

/** R.m.s. of everything up to each frequency: where the vibration is, whatever the log axis hides. Densities only. */
export function cumulativeChart(spectra: readonly NamedSpectrum[], options: OverlayOptions): ChartPart | undefined {
  const series = spectrumSeries(spectra).filter(({ strong }) => strong !== undefined);
  const first = series[0]?.entries[0];
  if (first === undefined || spectra.some(({ value }: { value: SpectrumValue }) => value.form !== 'psd'))
    return undefined;
  const curves = series.map((one) => ({ series: one, rms: cumulativeRms(one) }));
  const names = series.map(({ label }) => label);
  const quantity = `${channelQuantity(first.channel)} r.m.s.`;
  const unit = first.channel.unit.symbol;
  const across = acrossOf(spectra[0].value);
  const highest = Math.max(...curves.map(({ series: one, rms }) => (one.strong?.spacing ?? 0) * (rms.length - 1)));
  const lowest = Math.min(...series.map(({ strong }) => strong?.spacing ?? highest));
  const from = Math.max(options.over?.from ?? 0, options.frequency === 'log' ? lowest : 0);
  const x = { from, to: Math.min(options.over?.to ?? highest, highest) };
  const scale = (range: (index: number) => unknown): object => ({
    domain: names,
    range: names.map((_, index) => range(index)),
  });
  const values = curves.map(({ series: { label, strong }, rms }) => {
    const spacing = strong?.spacing ?? 1;
    const bins = binsToDraw(rms, spacing, x.from, x.to, options.frequency);
    return { series: label, f: bins.map((bin) => drawn((bin + 0.5) * spacing)), v: bins.map((bin) => drawn(rms[bin])) };
  });
  return chartPart({
    title: `Cumulative r.m.s. of ${listed(distinct(series.map(({ set }) => set)))}`,
    subtitle: `R.m.s. of everything from the lowest bin up to each ${across.hertz ? 'frequency' : 'place'}.`,
    view: {
      width: fullWidth,
      height: plotHeight,
      data: { values },
      transform: [{ flatten: ['f', 'v'] }],
      mark: { type: 'line', aria: false, clip: true, strokeWidth: role('strong') },
      encoding: {
        x: { field: 'f', ...frequencyAxis(x, options.frequency, true, across.title) },
        y: {
          field: 'v',
          type: 'quantitative',
          scale: fromZero(curves.map(({ rms }) => rms[rms.length - 1])),
          axis: { title: axisTitle(quantity, unit), labelExpr: figureLabel, tickCount: 5 },
        },
        color: { field: 'series', type: 'nominal', scale: scale(seriesColour), legend: seriesLegend(names, 'stroke') },
        strokeDash: { field: 'series', type: 'nominal', scale: scale(seriesDash) },
      },
    },
    height: plotHeight + 46,
    legendRows: legendRows(names),
    description: `${capitalised(quantity)} cumulated over ${across.name}. ${curves.map((curve) => halfSentence(curve.series, curve.rms, unit, across)).join(' ')}`,
  });
}

/** Bin 0 is left out: the mean is removed. Bin k counts density x spacing, as band r.m.s. does over the whole range. */
export function cumulativeRms({ strong }: SpectrumSeries): Float64Array {
  if (strong === undefined) return new Float64Array();
  let sum = 0;
  return strong.level.map((density, bin) => {
    if (bin > 0) sum += density * strong.spacing;
    return Math.sqrt(sum);
  });
}

function halfSentence({ label, strong }: SpectrumSeries, rms: Float64Array, unit: string, across: Across): string {
  const total = rms[rms.length - 1];
  const half = rms.findIndex((value) => value >= total / Math.SQRT2);
  return `${label}: ${significant(total, 3)} ${printedUnit(unit)} in all, half of its mean square below ${placeOn(across, half * (strong?.spacing ?? 0))}.`;
}
