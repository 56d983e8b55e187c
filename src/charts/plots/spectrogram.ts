import { spectrogramDescription, spectrogramSubtitle, spectrogramTitle } from '../words/spectra.ts';
import type { SpectrogramEntry } from '../../values/spectrogram.ts';
import type { WindowValue } from '../../values/window.ts';
import {
  figureLabel,
  frequencyRange,
  logTicks,
  powerTicks,
  timeAxis,
  type Domain,
  type FrequencyOptions,
} from '../axes.ts';
import { lookedAt } from '../closer.ts';
import { layout } from '../layout.ts';
import type { ReadsCells } from '../reads.ts';
import { layered, layerOf, strips } from '../marks.ts';
import { axisTitle, channelQuantity } from '../words/names.ts';
import { hertz, plain, significant, printedUnit } from '../../values/number.ts';
import type { ChartPart } from '../output.ts';
import { lowCutOf } from '../series.ts';
import { belowPlot, chartPart, role, type VegaJson } from '../specification.ts';
import { heatColours } from '../theme.ts';
import { cellGrid, colourPaths, levelSpan, readCells, stepOf, type Grid } from './spectrogramCells.ts';

const plotHeight = 260;

/** What is shown of one run and channel, worked out before the colours are dealt out. */
interface Frame {
  readonly entry: SpectrogramEntry;
  readonly time: Domain;
  readonly frequency: Domain;
  readonly grid: Grid;
  readonly span: Domain;
}

/**
 * Level over time and frequency as colour on an even colour map with its bar: a picture for each run and channel, and
 * one colour means the same level in all that are in one unit.
 */
export function spectrogramCharts(
  entries: readonly SpectrogramEntry[],
  window: WindowValue,
  options: FrequencyOptions,
): ChartPart[] {
  const frames = entries.flatMap((entry) => frameOf(entry, options) ?? []);
  return frames.map((frame) => {
    const sameUnit = frames.filter(({ entry }) => entry.unit.symbol === frame.entry.unit.symbol);
    const span = {
      from: Math.min(...sameUnit.map((one) => one.span.from)),
      to: Math.max(...sameUnit.map((one) => one.span.to)),
    };
    return spectrogramChart({ ...frame, span }, window, options, sameUnit.length > 1);
  });
}

function frameOf(entry: SpectrogramEntry, options: FrequencyOptions): Frame | undefined {
  const { times, spacing, bins } = entry;
  if (times.length === 0 || bins < 2) return undefined;
  const step = stepOf(times);
  const whole = { from: times[0] - step / 2, to: times[times.length - 1] + step / 2 };
  const time = within(whole, lookedAt('time', undefined));
  const frequency = frequencyRange(spacing, spacing * (bins - 1), options, lowCutOf([entry]));
  const grid = cellGrid(entry, time, frequency, options.frequency);
  // A colour means the same, however little of the picture is looked at.
  const span = levelSpan(time === whole ? grid : cellGrid(entry, whole, frequency, options.frequency));
  return span && { entry, time, frequency, grid, span };
}

/** The part of a domain that is asked for, if there is any of it. */
function within(whole: Domain, asked: Domain | undefined): Domain {
  if (asked === undefined) return whole;
  const cut = { from: Math.max(whole.from, asked.from), to: Math.min(whole.to, asked.to) };
  return cut.from < cut.to ? cut : whole;
}

function spectrogramChart(frame: Frame, window: WindowValue, options: FrequencyOptions, shared: boolean): ChartPart {
  const { entry, time, frequency, span } = frame;
  const quantity = `${channelQuantity(entry.channel)} spectral density`;
  const colours = Array.from(
    { length: heatColours },
    (_, index) => span.from + ((span.to - span.from) * index) / (heatColours - 1),
  );
  return chartPart({
    what: `spectrogram-${entry.run.label}`,
    title: spectrogramTitle(entry, quantity),
    subtitle: spectrogramSubtitle(entry, window, shared),
    view: layered(plotHeight, [
      axesLayer(frame, options, colours),
      strips(stripRows(entry, time), { field: 't', type: 'quantitative' }, 't2'),
    ]),
    finish: (vega) => withCells(vega, frame, options),
    height: plotHeight + belowPlot,
    legendRows: 2,
    description: spectrogramDescription(entry, quantity, time, frequency, loudestOf(entry)),
    axis: { quantity: 'time' },
  });
}

/** The axes and the colour bar; the cells take the place of its mark. */
function axesLayer({ entry, time, frequency }: Frame, options: FrequencyOptions, colours: readonly number[]): object {
  const values = [{ t: time.from, f: frequency.from, level: colours[0] }];
  return {
    name: 'cells',
    ...layerOf(
      values,
      { type: 'point' },
      {
        x: timeAxis('t', time, { grid: false }),
        y: upwardFrequency(frequency, options.frequency),
        color: colourScale(colours, axisTitle('density', entry.unit)),
      },
    ),
  };
}

const upwardFrequency = (domain: Domain, type: 'linear' | 'log'): object => ({
  field: 'f',
  type: 'quantitative',
  scale: { type, domain: [domain.from, domain.to], nice: false, zero: false },
  axis: {
    title: 'Frequency (Hz)',
    grid: false,
    ...(type === 'log'
      ? { values: logTicks(domain), labelExpr: "format(datum.value, '~r')" }
      : { labelExpr: figureLabel }),
  },
});

const colourScale = (colours: readonly number[], title: string): object => ({
  field: 'level',
  type: 'quantitative',
  scale: { type: 'linear', domain: colours, range: colours.map((_, index) => role(`heat${index + 1}`)), clamp: true },
  legend: {
    type: 'gradient',
    title,
    titleOrient: 'left',
    gradientLength: { expr: 'max(90, min(280, chartWidth - 190))' },
    gradientThickness: 10,
    gradientOpacity: 1,
    ...powerTicks({ from: colours[0], to: colours[colours.length - 1] }),
  },
});

function withCells(vega: VegaJson, frame: Frame, options: FrequencyOptions): VegaJson {
  const { grid, span } = frame;
  const readings = layout().print ? [] : [{ name: 'readings', values: [readingsOf(frame, options)] }];
  const data = [...((vega['data'] ?? []) as object[]), { name: 'cells', values: colourPaths(grid, span) }, ...readings];
  const cells = {
    type: 'path',
    from: { data: 'cells' },
    clip: true,
    aria: false,
    encode: {
      update: {
        path: { field: 'd' },
        x: { value: 0 },
        y: { value: 0 },
        scaleX: { signal: `width / ${grid.columns}` },
        scaleY: { signal: `height / ${grid.rows}` },
        fill: { scale: 'color', field: 'level' },
        // Between cells of two colours a PDF would show the paper.
        ...(layout().print ? { stroke: { scale: 'color', field: 'level' }, strokeWidth: { value: 0.4 } } : {}),
      },
    },
  };
  const marks = (vega.marks ?? []).map((mark) => (mark.name?.startsWith('cells') === true ? cells : mark));
  return { ...vega, data, marks };
}

const readingsOf = ({ entry, time, frequency, grid }: Frame, options: FrequencyOptions): ReadsCells => ({
  reads: { unit: printedUnit(entry.unit.symbol), times: 10, digits: 2 },
  columns: grid.columns,
  rows: grid.rows,
  time,
  frequency,
  scale: options.frequency,
  ...readCells(grid),
});

/** The highest level of so many columns, and where it lies. */
function stripRows(entry: SpectrogramEntry, time: Domain): { readonly says: string }[] {
  const { times } = entry;
  const every = Math.ceil(times.length / 160);
  const step = stepOf(times);
  const strips = Array.from({ length: Math.ceil(times.length / every) }, (_, strip) => {
    const segment = Math.min(times.length - 1, strip * every + (every >> 1));
    const top = loudestBin(entry, segment);
    return {
      t: Math.max(time.from, times[strip * every] - step / 2),
      t2: Math.min(time.to, times[strip * every] + step * (every - 0.5)),
      says: `${plain(times[segment], 5)} s\nhighest ${significant(top.density, 3)} ${printedUnit(entry.unit.symbol)} at ${hertz(top.frequency)}`,
    };
  });
  return strips.filter(({ t, t2 }) => t < t2);
}

interface Loudest {
  readonly density: number;
  readonly frequency: number;
}

function loudestBin({ bins, density, spacing }: SpectrogramEntry, segment: number): Loudest {
  let best = 1;
  for (let bin = 1; bin < bins; bin++) if (density[segment * bins + bin] > density[segment * bins + best]) best = bin;
  return { density: density[segment * bins + best], frequency: best * spacing };
}

function loudestOf(entry: SpectrogramEntry): Loudest & { readonly at: number } {
  let when = 0;
  let loudest: Loudest = { density: -Infinity, frequency: 0 };
  entry.times.forEach((_, segment) => {
    const here = loudestBin(entry, segment);
    if (here.density > loudest.density) [loudest, when] = [here, segment];
  });
  return { ...loudest, at: entry.times[when] };
}
