import type { WindowValue } from '../../values/window.ts';
import type { SpectrogramEntry } from '../../values/spectrogram.ts';
import { figureLabel, logTicks, powerTicks, type Domain } from '../axes.ts';
import { axisTitle, capitalised, channelQuantity, printedUnit, windowWords } from '../names.ts';
import { hertz, hertzSpan, plain, significant } from '../number.ts';
import type { ChartPart } from '../output.ts';
import { chartPart, fullWidth, role, type VegaJson } from '../specification.ts';
import { stripName } from '../strips.ts';
import { heatColours } from '../theme.ts';
import { cellGrid, colourPaths, levelSpan, stepOf, type Grid } from './spectrogram-cells.ts';

export interface SpectrogramOptions {
  readonly frequency: 'linear' | 'log';
  /** Of the frequency axis in Hz. */
  readonly over?: Domain;
}

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
  options: SpectrogramOptions,
): ChartPart[] {
  const frames = entries.flatMap((entry) => frameOf(entry, options) ?? []);
  return frames.map((frame) => {
    const alike = frames.filter(({ entry }) => entry.unit.symbol === frame.entry.unit.symbol);
    const span = {
      from: Math.min(...alike.map((one) => one.span.from)),
      to: Math.max(...alike.map((one) => one.span.to)),
    };
    return spectrogramChart({ ...frame, span }, window, options, alike.length > 1);
  });
}

function frameOf(entry: SpectrogramEntry, options: SpectrogramOptions): Frame | undefined {
  const { times, spacing, bins } = entry;
  if (times.length === 0 || bins < 2) return undefined;
  const step = stepOf(times);
  const time = { from: times[0] - step / 2, to: times[times.length - 1] + step / 2 };
  const top = spacing * (bins - 1);
  const wanted = {
    from: Math.max(options.over?.from ?? 0, options.frequency === 'log' ? spacing : 0),
    to: Math.min(options.over?.to ?? top, top),
  };
  const frequency = wanted.from < wanted.to ? wanted : { from: spacing, to: top };
  const grid = cellGrid(entry, time, frequency, options.frequency);
  const span = levelSpan(grid);
  return span && { entry, time, frequency, grid, span };
}

function spectrogramChart(
  { entry, time, frequency, grid, span }: Frame,
  window: WindowValue,
  options: SpectrogramOptions,
  shared: boolean,
): ChartPart {
  const { run, channel } = entry;
  const quantity = `${channelQuantity(channel)} spectral density`;
  const colours = Array.from(
    { length: heatColours },
    (_, index) => span.from + ((span.to - span.from) * index) / (heatColours - 1),
  );
  return chartPart({
    title: `${capitalised(quantity)} over time: ${run.label}, channel ${channel.name}`,
    subtitle: `${capitalised(windowWords(window))}. ${averaged(entry)}Each cell shows the highest level in it.${shared ? ' One colour scale for all runs.' : ''}`,
    view: {
      width: fullWidth,
      height: plotHeight,
      layer: [axesLayer(entry, time, frequency, options, colours), stripLayer(entry, time)],
    },
    finish: (vega) => withCells(vega, grid, span),
    height: plotHeight + 46,
    legendRows: 2,
    description: spectrogramDescription(entry, quantity, time, frequency),
  });
}

/** Said where a column is the mean of several segments. */
const averaged = ({ perColumn = 1 }: SpectrogramEntry): string =>
  perColumn > 1 ? `Each column is the mean of ${perColumn} segments. ` : '';

/** The axes and the colour bar; the cells take the place of its mark. */
function axesLayer(
  entry: SpectrogramEntry,
  time: Domain,
  frequency: Domain,
  options: SpectrogramOptions,
  colours: readonly number[],
): object {
  const log = options.frequency === 'log';
  return {
    name: 'cells',
    data: { values: [{ t: time.from, f: frequency.from, level: colours[0] }] },
    mark: { type: 'point', aria: false },
    encoding: {
      x: {
        field: 't',
        type: 'quantitative',
        scale: { domain: [time.from, time.to], nice: false, zero: false },
        axis: { title: 'Time (s)', grid: false, labelExpr: figureLabel, tickCount: { expr: 'floor(chartWidth / 90)' } },
      },
      y: {
        field: 'f',
        type: 'quantitative',
        scale: { type: options.frequency, domain: [frequency.from, frequency.to], nice: false, zero: false },
        axis: {
          title: 'Frequency (Hz)',
          grid: false,
          ...(log
            ? { values: logTicks(frequency), labelExpr: "format(datum.value, '~r')" }
            : { labelExpr: figureLabel }),
        },
      },
      color: {
        field: 'level',
        type: 'quantitative',
        scale: {
          type: 'linear',
          domain: colours,
          range: colours.map((_, index) => role(`heat${index + 1}`)),
          clamp: true,
        },
        legend: {
          type: 'gradient',
          title: axisTitle('density', entry.unit),
          titleOrient: 'left',
          gradientLength: 280,
          gradientThickness: 10,
          gradientOpacity: 1,
          ...powerTicks({ from: colours[0], to: colours[colours.length - 1] }),
        },
      },
    },
  };
}

function withCells(vega: VegaJson, grid: Grid, span: Domain): VegaJson {
  const data = [...((vega['data'] ?? []) as object[]), { name: 'cells', values: colourPaths(grid, span) }];
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
      },
    },
  };
  const marks = (vega.marks ?? []).map((mark) => (mark.name?.startsWith('cells') === true ? cells : mark));
  return { ...vega, data, marks };
}

function stripLayer(entry: SpectrogramEntry, time: Domain): object {
  const { times } = entry;
  const every = Math.ceil(times.length / 160);
  const step = stepOf(times);
  const values = Array.from({ length: Math.ceil(times.length / every) }, (_, strip) => {
    const segment = Math.min(times.length - 1, strip * every + (every >> 1));
    const top = loudestBin(entry, segment);
    return {
      t: Math.max(time.from, times[strip * every] - step / 2),
      t2: Math.min(time.to, times[strip * every] + step * (every - 0.5)),
      says: `${plain(times[segment], 5)} s\nhighest ${significant(top.density, 3)} ${printedUnit(entry.unit.symbol)} at ${hertz(top.frequency)}`,
    };
  });
  return {
    name: stripName,
    data: { values },
    mark: { type: 'rect', aria: false, color: role('ink'), tooltip: { content: 'encoding' } },
    encoding: {
      x: { field: 't', type: 'quantitative' },
      x2: { field: 't2' },
      tooltip: { field: 'says', type: 'nominal' },
    },
  };
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

function spectrogramDescription(entry: SpectrogramEntry, quantity: string, time: Domain, frequency: Domain): string {
  let when = 0;
  let loudest: Loudest = { density: -Infinity, frequency: 0 };
  entry.times.forEach((_, segment) => {
    const here = loudestBin(entry, segment);
    if (here.density > loudest.density) [loudest, when] = [here, segment];
  });
  return `${capitalised(quantity)} of ${entry.run.label}, channel ${entry.channel.name}, from ${plain(time.from, 4)} to ${plain(time.to, 4)} s and ${hertzSpan(frequency.from, frequency.to)}. Highest: ${significant(loudest.density, 3)} ${printedUnit(entry.unit.symbol)} at ${hertz(loudest.frequency)}, ${plain(entry.times[when], 4)} s.`;
}
