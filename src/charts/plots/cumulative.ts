import { cumulativeDescription, cumulativeSubtitle, cumulativeTitle } from '../words/spectra.ts';
import { frequencyAxis, frequencyRange, fromZero, levelAxis } from '../axes.ts';
import { binsToDraw } from '../decimate.ts';
import { bySeries, legendRows } from '../legends.ts';
import { curvesOf } from '../marks.ts';
import { axisTitle, channelQuantity } from '../words/names.ts';
import { drawn } from '../../values/number.ts';
import type { ChartPart } from '../output.ts';
import { acrossOf, lowCutOf, spectrumSeries, type NamedSpectrum, type SpectrumSeries } from '../series.ts';
import { belowPlot, chartPart, fullWidth, role } from '../specification.ts';
import type { OverlayOptions } from './overlayOptions.ts';

const plotHeight = 160;

/** R.m.s. of everything up to each frequency: where the vibration is, whatever the log axis hides. Densities only. */
export function cumulativeChart(spectra: readonly NamedSpectrum[], options: OverlayOptions): ChartPart | undefined {
  const series = spectrumSeries(spectra).filter(({ strong }) => strong !== undefined);
  const first = series.at(0)?.entries.at(0);
  if (first === undefined || spectra.some(({ value }) => value.form !== 'psd')) return undefined;
  const curves = series.map((one) => ({ ...one, rms: cumulativeRms(one) }));
  const names = series.map(({ label }) => label);
  const quantity = `${channelQuantity(first.channel)} r.m.s.`;
  const unit = first.channel.unit.symbol;
  const across = acrossOf(spectra[0].value);
  const ends = curves.map(({ strong, rms }) => (strong?.spacing ?? 0) * (rms.length - 1));
  const spacings = curves.map(({ strong }) => strong?.spacing ?? Infinity);
  const x = frequencyRange(
    Math.min(...spacings),
    Math.max(...ends),
    options,
    lowCutOf(curves.flatMap(({ entries }) => entries)),
  );
  const values = curves.map(({ label, strong, rms }) => {
    const spacing = strong?.spacing ?? 1;
    const bins = binsToDraw(rms, spacing, x.from, x.to, options.frequency);
    return { series: label, f: bins.map((bin) => drawn((bin + 0.5) * spacing)), v: bins.map((bin) => drawn(rms[bin])) };
  });
  const { color, strokeDash } = bySeries(names, 'line');
  const totals = curves.map(({ rms }) => rms[rms.length - 1]);
  const axes = {
    x: frequencyAxis(x, options.frequency, across.title),
    y: levelAxis('v', axisTitle(quantity, unit), fromZero(totals), { tickCount: 5 }),
  };
  const mark = { type: 'line', clip: true, strokeWidth: role('strong') };
  return chartPart({
    what: 'cumulative',
    title: cumulativeTitle(series.map(({ set }) => set)),
    subtitle: cumulativeSubtitle(across),
    view: {
      width: fullWidth,
      height: plotHeight,
      ...curvesOf(values, ['f', 'v'], mark, { ...axes, color, strokeDash }),
    },
    height: plotHeight + belowPlot,
    legendRows: legendRows(names),
    description: cumulativeDescription(quantity, unit, across, curves.map(halfOf)),
  });
}

/** Bin 0 is left out: the mean is removed. Bin k counts density x spacing, as band r.m.s. does over the whole range. */
function cumulativeRms({ strong }: SpectrumSeries): Float64Array {
  if (strong === undefined) return new Float64Array();
  let sum = 0;
  return strong.level.map((density, bin) => {
    if (bin > 0) sum += density * strong.spacing;
    return Math.sqrt(sum);
  });
}

/** The whole r.m.s. of a curve, and where half of its mean square is reached. */
function halfOf({ label, strong, rms }: CumulativeCurve): { label: string; total: number; halfAt: number } {
  const total = rms[rms.length - 1];
  const half = rms.findIndex((value) => value >= total / Math.SQRT2);
  return { label, total, halfAt: half * (strong?.spacing ?? 0) };
}

interface CumulativeCurve extends SpectrumSeries {
  readonly rms: Float64Array;
}
