import { runQuantiles } from '../../values/runQuantiles.ts';
import { drawn, percent } from '../../values/number.ts';
import type { LevelScale } from '../levelScale.ts';
import { dots, rim, tellingLayer } from '../marks.ts';
import { crowdedShares, endsOf, mostDrawn } from '../series.ts';
import { role } from '../specification.ts';
import { middleOfRuns, type BandBar } from '../words/levels.ts';

interface BarChart {
  readonly series: readonly string[];
  readonly bands: readonly string[];
  readonly scale: LevelScale;
  /** Of the bars, without what sets the series of a band side by side. */
  readonly encoding: { readonly x: object; readonly y: object; readonly color: object };
  readonly shape: object;
}

/** Whether a bar has more runs than can be told apart as dots. */
export const isCrowd = ({ runs }: BandBar): boolean => runs.length > mostDrawn;

/** What is set side by side within a band. */
export const offsetBy = (field: string, scale: object): object => ({ xOffset: { field, type: 'nominal', scale } });

/** The runs of each bar: a dot each, or of many two lines over where most of them lie. */
export function bandRunLayers(bars: readonly BandBar[], chart: BarChart): object[] {
  const crowds = bars.filter(isCrowd);
  const few = bars.filter((bar) => !isCrowd(bar));
  return [...(few.length > 0 ? [dotLayer(few, chart)] : []), ...(crowds.length > 0 ? crowdLayers(crowds, chart) : [])];
}

function dotLayer(bars: readonly BandBar[], { series, bands, scale, encoding, shape }: BarChart): object {
  const runs = bars.flatMap((bar) =>
    bar.runs.map(({ run, rms }, place) => ({
      series: bar.series,
      band: bar.band,
      slot: `${bar.series} ${place}`,
      rms: drawn(scale.of(rms)),
      says: `${run}, ${bar.band}\n${scale.write(rms)} ${scale.unit}`,
    })),
  );
  return dots(
    runs,
    bands.length > 12 ? 14 : 34,
    { ...encoding, ...offsetBy('slot', { domain: slotsOf(bars, series) }), shape },
    rim(0.8),
  );
}

/** Places side by side within each bar, so that dots of about one height do not hide one another. */
function slotsOf(bars: readonly BandBar[], series: readonly string[]): string[] {
  const most = Math.max(...bars.map(({ runs }) => runs.length));
  return series.flatMap((name) => Array.from({ length: most }, (_, place) => `${name} ${place}`));
}

/** Thin for the wider share, thick for the narrower; the end of the bar, which is the mean, stays to be seen beside them. */
const thicknesses = [1.5, 6];

function crowdLayers(bars: readonly BandBar[], { series, scale, encoding }: BarChart): object[] {
  return crowdedShares.map((share, index) => {
    const rows = bars.map((bar) => {
      const [low, high] = middleOf(bar, share);
      return {
        series: bar.series,
        band: bar.band,
        rms: drawn(scale.of(low)),
        to: drawn(scale.of(high)),
        says: [`${bar.band}, ${bar.series}`, ...crowdWords(bar, scale)].join('\n'),
      };
    });
    return tellingLayer(
      rows,
      { type: 'rule', strokeWidth: thicknesses[index], color: role('ink') },
      {
        x: encoding.x,
        y: encoding.y,
        y2: { field: 'to' },
        ...offsetBy('series', { domain: series, paddingInner: 0.12 }),
      },
    );
  });
}

/** Where the runs of a crowded bar lie, and which are the farthest out. */
export function crowdWords(bar: BandBar, { unit, write }: LevelScale): string[] {
  const middles = crowdedShares.map((share) => {
    const [low, high] = middleOf(bar, share);
    return `${middleOfRuns(percent(share), bar.runs.length)}: ${write(low)} to ${write(high)} ${unit}`;
  });
  const farthest = (sign: number): BandBar['runs'][number] =>
    bar.runs.reduce((most, one) => (sign * one.rms > sign * most.rms ? one : most));
  const named = [
    ['lowest', farthest(-1)],
    ['highest', farthest(1)],
  ] as const;
  return [...middles, ...named.map(([what, { run, rms }]) => `${what}: ${write(rms)} ${unit} (${run})`)];
}

function middleOf({ runs }: BandBar, share: number): readonly [number, number] {
  const levels = runs.map(({ rms }) => Float64Array.of(rms));
  const [[low, high]] = runQuantiles(levels, [0], endsOf(share));
  return [low, high];
}
