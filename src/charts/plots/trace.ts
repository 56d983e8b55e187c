import type { Channel, Run, RunsValue } from '../../verbs/values.ts';
import { figureLabel, type Domain } from '../axes.ts';
import { envelope } from '../decimate.ts';
import { axisTitle, capitalised, channelQuantity, counted, distinct, listed, printedUnit } from '../names.ts';
import { drawn, plain, significant } from '../number.ts';
import type { ChartPart } from '../output.ts';
import { chartPart, fullWidth, role, seriesColour } from '../specification.ts';

/** Runs over time, a panel for each run and channel: lowest and highest sample of every column of the picture. */

export interface TraceOptions {
  readonly over?: { readonly from: number; readonly to: number };
  readonly marks: readonly { readonly at: number; readonly label: string }[];
}

/** Beyond this many panels a chart is no longer read but scrolled past. */
const panelLimit = 12;

interface Panel {
  readonly label: string;
  readonly run: Run;
  readonly channel: Channel;
  readonly colour: number;
}

export function traceChart(
  sets: readonly { readonly name: string | undefined; readonly value: RunsValue }[],
  options: TraceOptions,
): ChartPart | undefined {
  const all = panelsOf(sets);
  if (all.length === 0) return undefined;
  const panels = all.slice(0, panelLimit);
  const { channel } = panels[0];
  const one = panels.every((panel) => panel.channel.unit.symbol === channel.unit.symbol);
  const x = timeDomain(panels, options);
  const height = panels.length === 1 ? 200 : panels.length < 5 ? 92 : 60;
  const left =
    all.length > panels.length
      ? ` The first ${panels.length} of ${all.length} are shown; pick one with [ ] to see the others.`
      : '';
  return chartPart({
    title: `${capitalised(one ? channelQuantity(channel) : 'signal')} over time: ${listed(distinct(all.map((panel) => panel.run.label)).slice(0, 8))}`,
    subtitle: `Lowest and highest sample of each column of the picture${trimmed(panels) ? '; grey: outside the stretch in use' : ''}.${left}`,
    view: {
      spacing: 10,
      vconcat: panels.map((panel, index) =>
        panelView(panel, { x, y: levelDomain(panels, panel.channel) }, height, options, {
          last: index === panels.length - 1,
          alone: panels.length === 1,
        }),
      ),
    },
    height: panels.length * (height + (panels.length === 1 ? 10 : 30)) + 40,
    description: traceDescription(panels, x) + left,
  });
}

const trimmed = (panels: readonly Panel[]): boolean => panels.some(({ run }) => run.whole !== undefined);

function panelsOf(sets: readonly { readonly value: RunsValue }[]): Panel[] {
  const channels = distinct(
    sets.flatMap(({ value }) => value.runs.flatMap((run) => run.channels.map(({ name }) => name))),
  );
  return sets.flatMap(({ value }, set) =>
    value.runs.flatMap((run) =>
      run.channels.map((channel) => ({
        label: `${run.label} · ${channel.name}`,
        run,
        channel,
        colour: sets.length > 1 ? set : channels.indexOf(channel.name),
      })),
    ),
  );
}

const wholeOf = (run: Run): Run => run.whole ?? run;
const duration = (run: Run): number => (run.channels[0]?.samples.length ?? 0) / run.rate;
const endOf = (run: Run): number =>
  run.stretches.reduce(
    (end, { from, to, start }) => Math.max(end, start + (to - from) / run.rate),
    run.start + duration(run),
  );

function timeDomain(panels: readonly Panel[], { over }: TraceOptions): Domain {
  const from = Math.min(...panels.map(({ run }) => wholeOf(run).start));
  const to = Math.max(...panels.map(({ run }) => endOf(wholeOf(run))));
  return over === undefined ? { from, to } : { from: Math.max(from, over.from), to: Math.min(to, over.to) };
}

/** One domain for all panels of a channel, so that runs can be compared by eye. */
function levelDomain(panels: readonly Panel[], { name, unit }: Channel): Domain {
  const alike = panels.filter(({ channel }) => channel.name === name && channel.unit.symbol === unit.symbol);
  const spans = alike.map(({ run }) =>
    extent(wholeOf(run).channels.find((channel) => channel.name === name)?.samples ?? []),
  );
  const from = Math.min(...spans.map((span) => span.from));
  const to = Math.max(...spans.map((span) => span.to));
  return from < to ? { from, to } : { from: from - 1, to: to + 1 };
}

function extent(samples: Iterable<number>): Domain {
  let from = Infinity;
  let to = -Infinity;
  for (const sample of samples) {
    if (sample < from) from = sample;
    if (sample > to) to = sample;
  }
  return { from, to };
}

function panelView(
  { label, run, channel, colour }: Panel,
  { x, y }: { x: Domain; y: Domain },
  height: number,
  { marks }: TraceOptions,
  { last, alone }: { last: boolean; alone: boolean },
): object {
  const axisX = {
    field: 't',
    type: 'quantitative',
    scale: { domain: [x.from, x.to], nice: false, zero: false },
    axis: {
      title: last ? 'Time (s)' : null,
      labels: last,
      labelExpr: figureLabel,
      tickCount: { expr: 'floor(chartWidth / 90)' },
    },
  };
  const title = alone ? axisTitle(channelQuantity(channel), channel.unit) : null;
  const axisY = {
    field: 'v',
    type: 'quantitative',
    scale: { zero: false, nice: true, domain: [y.from, y.to] },
    axis: {
      title,
      tickCount: alone ? 6 : 3,
      labelExpr: figureLabel,
    },
  };
  const area = (source: Run, color: object, opacity: number): object => ({
    data: { values: pieces(source, channel.name, x) },
    transform: [{ flatten: ['t', 'v', 'v2'] }],
    mark: {
      type: 'area',
      clip: true,
      aria: false,
      color,
      stroke: color,
      strokeWidth: 0.7,
      opacity,
      tooltip: { content: 'encoding' },
    },
    encoding: { x: axisX, y: axisY, y2: { field: 'v2' }, detail: { field: 'piece' } },
  });
  return {
    ...(alone
      ? {}
      : {
          title: {
            text: `${label} (${printedUnit(channel.unit.symbol)})`,
            fontSize: 11,
            fontWeight: 500,
            offset: 3,
            frame: 'group',
          },
        }),
    width: fullWidth,
    height,
    layer: [
      ...(run.whole === undefined ? [] : [area(run.whole, role('faded'), 0.55), stretchRect(run, x, axisX)]),
      area(run, seriesColour(colour), 1),
      ...(marks.length === 0 ? [] : [markRules(marks, axisX)]),
    ],
  };
}

/** The stretch in use, shaded lightly over its whole height. */
function stretchRect(run: Run, x: Domain, axisX: object): object {
  const span = { t: Math.max(x.from, run.start), t2: Math.min(x.to, endOf(run)) };
  return {
    data: { values: span.t < span.t2 ? [span] : [] },
    mark: { type: 'rect', aria: false, color: role('shade'), opacity: 0.6 },
    encoding: { x: axisX, x2: { field: 't2' } },
  };
}

function markRules(marks: TraceOptions['marks'], axisX: object): object {
  return {
    data: { values: marks.map(({ at, label }) => ({ t: at, label })) },
    layer: [
      { mark: { type: 'rule', aria: false, strokeDash: [3, 3] }, encoding: { x: axisX } },
      {
        mark: { type: 'text', aria: false, align: 'left', dx: 4, y: 8 },
        encoding: { x: axisX, text: { field: 'label', type: 'nominal' } },
      },
    ],
  };
}

interface Piece {
  readonly piece: number;
  readonly t: number[];
  readonly v: (number | null)[];
  readonly v2: (number | null)[];
}

/** One piece per unbroken stretch, so that no line bridges a gap; columns shared out by length. */
function pieces(run: Run, name: string, x: Domain): Piece[] {
  const samples = run.channels.find((channel) => channel.name === name)?.samples;
  if (samples === undefined) return [];
  const stretches = run.stretches.length > 0 ? run.stretches : [{ from: 0, to: samples.length, start: run.start }];
  const visible = stretches.map(({ from, to, start }) => ({
    start,
    origin: from,
    from: Math.min(to, Math.max(from, from + Math.floor((x.from - start) * run.rate))),
    to: Math.max(from, Math.min(to, from + Math.ceil((x.to - start) * run.rate) + 1)),
  }));
  const total = visible.reduce((sum, { from, to }) => sum + Math.max(0, to - from), 0);
  return visible.flatMap(({ start, origin, from, to }, piece) => {
    if (to <= from) return [];
    const columns = Math.max(2, Math.round((800 * (to - from)) / total));
    const { at, low, high } = envelope(samples, from, to, columns);
    const time = (index: number): number => run.times?.[index] ?? start + (index - origin) / run.rate;
    return [{ piece, t: at.map((index) => drawn(time(index)) ?? 0), v: low.map(drawn), v2: high.map(drawn) }];
  });
}

function traceDescription(panels: readonly Panel[], x: Domain): string {
  const lines = panels.map(({ label, run, channel }) => {
    const { from, to } = extent(channel.samples);
    const range = `${significant(from, 3)} to ${significant(to, 3)} ${printedUnit(channel.unit.symbol)}`;
    const stretch =
      run.whole === undefined
        ? ''
        : `, the stretch in use ${plain(run.start, 5)} to ${plain(endOf(run), 5)} s of ${plain(endOf(run.whole), 5)} s`;
    const gaps = run.stretches.length > 1 ? `, ${counted(run.stretches.length - 1, 'gap')}` : '';
    return `${label}: ${range}${stretch}${gaps}.`;
  });
  return `Time traces from ${plain(x.from, 5)} to ${plain(x.to, 5)} s. ${lines.join(' ')}`;
}
