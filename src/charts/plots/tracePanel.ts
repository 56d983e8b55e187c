import type { Channel, Run } from '../../values/run.ts';
import { levelAxis, timeAxis, type Domain } from '../axes.ts';
import { curvesOf, layered, layerOf, rimmedText, strips, writtenFrom } from '../marks.ts';
import type { Reads } from '../reads.ts';
import { axisTitle, drawnQuantity } from '../words/names.ts';
import { drawn, plain, significant, printedUnit } from '../../values/number.ts';
import { role, seriesColour } from '../specification.ts';
import { stripName } from '../strips.ts';
import type { PlaceMark } from './overlayOptions.ts';
import { endOf, pieces, untrimmedOf, type Piece, type Trace } from './traceData.ts';

/** A panel, and what is drawn in it. */
export interface TracedPanel extends Panel {
  readonly trace: Trace;
}

/** One run and channel over time. */
export interface Panel {
  readonly label: string;
  readonly run: Run;
  readonly channel: Channel;
  /** Which of the series' colours. */
  readonly colour: number;
  /** Which of several sets it is of; the first unless said. */
  readonly set?: number;
  /** Stretches to be pointed out, in s on the recording's time axis. */
  readonly places?: readonly (Domain & { readonly label: string })[];
}

export interface PanelFrame {
  readonly x: Domain;
  readonly y: Domain;
  readonly height: number;
  readonly marks: readonly PlaceMark[];
  /** The lowest panel carries the time axis' labels. */
  readonly last: boolean;
  /** A panel alone needs no name of its own, but a title on its axis. */
  readonly alone: boolean;
}

/** The whole recording grey, the stretch in use over it, places shaded, marks as rules. */
export function panelView(panel: TracedPanel, frame: PanelFrame): object {
  const { run, channel, label, colour, trace } = panel;
  const columns = frame.alone ? 800 : 500;
  const name = {
    text: `${label} (${printedUnit(channel.unit.symbol)})`,
    fontSize: 11,
    anchor: 'start',
    fontWeight: 500,
    offset: 3,
    frame: 'group',
  };
  const reads: Reads = { label, unit: printedUnit(channel.unit.symbol) };
  // The whole recording is read where it is drawn.
  const read = (area: readonly Piece[]): readonly Piece[] => area.map((piece) => ({ ...piece, reads }));
  const used = pieces(run, trace.used, frame.x, columns);
  const untrimmed =
    run.untrimmed === undefined
      ? []
      : [
          areaLayer(panel, read(pieces(run.untrimmed, trace.untrimmed, frame.x, columns)), frame, role('faded'), 0.55),
          spanLayer([{ from: run.start, to: endOf(run) }], frame, role('shade'), 0.6),
        ];
  const layers = [
    ...untrimmed,
    areaLayer(panel, run.untrimmed === undefined ? read(used) : used, frame, seriesColour(colour), 1),
    ...placeLayers(panel, frame),
    ...markLayers(frame),
    strips(stripRows(panel, frame), axisOf(frame), 't2', { name: `${stripName} ${label}`.replace(/\W+/g, '_') }),
  ];
  return layered(frame.height, layers, frame.alone ? {} : { title: name });
}

const axisOf = ({ x, last }: PanelFrame): object => timeAxis('t', x, { title: last ? 'Time (s)' : null, labels: last });

function areaLayer(
  { channel }: Panel,
  area: readonly Piece[],
  frame: PanelFrame,
  color: object,
  opacity: number,
): object {
  const { alone, y } = frame;
  const title = alone ? axisTitle(drawnQuantity(channel), channel.unit) : null;
  const scale = { zero: false, nice: true, domain: [y.from, y.to] };
  return curvesOf(
    area,
    ['t', 'v', 'v2'],
    { type: 'area', clip: true, color, stroke: color, strokeWidth: 0.7, opacity },
    {
      x: axisOf(frame),
      y: levelAxis('v', title, scale, { tickCount: alone ? 6 : 3 }),
      y2: { field: 'v2' },
      detail: { field: 'piece' },
    },
  );
}

/** Stretches shaded over the whole height. */
function spanLayer(spans: readonly Domain[], frame: PanelFrame, color: object, opacity: number): object {
  const { x } = frame;
  const values = spans
    .map(({ from, to }) => ({ t: Math.max(x.from, from), t2: Math.min(x.to, to) }))
    .filter(({ t, t2 }) => t < t2);
  return layerOf(values, { type: 'rect', color, opacity }, { x: axisOf(frame), x2: { field: 't2' } });
}

/** A place may be one sample long: it is drawn at least so wide that it can be seen. */
function placeLayers({ places = [] }: Panel, frame: PanelFrame): object[] {
  if (places.length === 0) return [];
  const least = (frame.x.to - frame.x.from) / 250;
  const spans = unitedSpans(
    places.map(({ from, to }) => ({
      from: Math.min(from, (from + to - least) / 2),
      to: Math.max(to, (from + to + least) / 2),
    })),
  );
  const names = places.slice(0, 12).map(({ from, label }) => ({ t: drawn(Math.max(from, frame.x.from)), label }));
  const named = names.filter(({ label }, index) => names.findIndex((other) => other.label === label) === index);
  return [spanLayer(spans, frame, role('higher'), 0.35), ...nameLayers(named, frame, 3)];
}

/** Spans that overlap made one: thousands of places are no more than what they cover. */
function unitedSpans(spans: readonly Domain[]): Domain[] {
  const united: Domain[] = [];
  for (const { from, to } of [...spans].sort((a, b) => a.from - b.from)) {
    const before = united.at(-1);
    if (before === undefined || from > before.to) united.push({ from, to });
    else united[united.length - 1] = { from: before.from, to: Math.max(before.to, to) };
  }
  return united;
}

function markLayers(frame: PanelFrame): object[] {
  const values = frame.marks
    .filter(({ at }) => at >= frame.x.from && at <= frame.x.to)
    .map(({ at, label }) => ({ t: drawn(at), label }));
  if (values.length === 0) return [];
  const rule = layerOf(values, { type: 'rule', strokeDash: [3, 3] }, { x: axisOf(frame) });
  return [rule, ...nameLayers(values, frame, 4)];
}

/** Names to the right of their places along the upper edge. */
const nameLayers = (values: readonly object[], frame: PanelFrame, dx: number): object[] =>
  rimmedText(values, { align: 'left', dx, y: 8 }, { x: axisOf(frame), ...writtenFrom('label') });

/** The lowest and highest sample of so many stretches. */
function stripRows(
  { run, channel, label, trace }: TracedPanel,
  frame: PanelFrame,
): { readonly t: number; readonly t2: number; readonly says: string }[] {
  const unit = printedUnit(channel.unit.symbol);
  return pieces(untrimmedOf(run), trace.untrimmed, frame.x, frame.alone ? 200 : 80).flatMap(({ t, v, v2 }) =>
    t.map((at, index) => {
      const to = t[index + 1] ?? at + (t[1] ?? at) - t[0];
      return {
        t: at,
        t2: Math.min(to, frame.x.to),
        says: `${label}\n${plain(at, 5)} to ${plain(to, 5)} s\n${significant(v[index], 3)} to ${significant(v2[index], 3)} ${unit}`,
      };
    }),
  );
}
