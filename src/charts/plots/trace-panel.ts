import type { Channel, Run } from '../../values/run.ts';
import { figureLabel, type Domain } from '../axes.ts';
import { axisTitle, channelQuantity, printedUnit } from '../names.ts';
import { drawn, plain, significant } from '../number.ts';
import { fullWidth, role, seriesColour } from '../specification.ts';
import { stripName } from '../strips.ts';
import { endOf, pieces } from './trace-data.ts';

/** One run and channel over time. */
export interface Panel {
  readonly label: string;
  readonly run: Run;
  readonly channel: Channel;
  /** Which of the series' colours. */
  readonly colour: number;
  /** Stretches to be pointed out, in s on the recording's time axis. */
  readonly places?: readonly (Domain & { readonly label: string })[];
}

export interface PanelFrame {
  readonly x: Domain;
  readonly y: Domain;
  readonly height: number;
  readonly marks: readonly { readonly at: number; readonly label: string }[];
  /** The lowest panel carries the time axis' labels. */
  readonly last: boolean;
  /** A panel alone needs no name of its own, but a title on its axis. */
  readonly alone: boolean;
}

/** The whole recording grey, the stretch in use over it, places shaded, marks as rules. */
export function panelView(panel: Panel, frame: PanelFrame): object {
  const { run, channel, label } = panel;
  const { alone, height } = frame;
  const name = {
    text: `${label} (${printedUnit(channel.unit.symbol)})`,
    fontSize: 11,
    anchor: 'start',
    fontWeight: 500,
    offset: 3,
    frame: 'group',
  };
  return {
    ...(alone ? {} : { title: name }),
    width: fullWidth,
    height,
    layer: [
      ...(run.untrimmed === undefined
        ? []
        : [
            areaLayer(panel, run.untrimmed, frame, role('faded'), 0.55),
            spanLayer([stretchOf(run)], frame, role('shade'), 0.6),
          ]),
      areaLayer(panel, run, frame, seriesColour(panel.colour), 1),
      ...placeLayers(panel, frame),
      ...markLayers(frame),
      stripLayer(panel, frame),
    ],
  };
}

const stretchOf = (run: Run): Domain => ({ from: run.start, to: endOf(run) });

function timeAxis(field: string, { x, last }: PanelFrame): object {
  return {
    field,
    type: 'quantitative',
    scale: { domain: [x.from, x.to], nice: false, zero: false },
    axis: {
      title: last ? 'Time (s)' : null,
      labels: last,
      labelExpr: figureLabel,
      tickCount: { expr: 'floor(chartWidth / 90)' },
    },
  };
}

function areaLayer({ channel }: Panel, source: Run, frame: PanelFrame, color: object, opacity: number): object {
  const { alone, x, y } = frame;
  const title = alone ? axisTitle(channelQuantity(channel), channel.unit) : null;
  return {
    data: { values: pieces(source, channel.name, x, alone ? 800 : 500) },
    transform: [{ flatten: ['t', 'v', 'v2'] }],
    mark: { type: 'area', clip: true, aria: false, color, stroke: color, strokeWidth: 0.7, opacity },
    encoding: {
      x: timeAxis('t', frame),
      y: {
        field: 'v',
        type: 'quantitative',
        scale: { zero: false, nice: true, domain: [y.from, y.to] },
        axis: { title, tickCount: alone ? 6 : 3, labelExpr: figureLabel },
      },
      y2: { field: 'v2' },
      detail: { field: 'piece' },
    },
  };
}

/** Stretches shaded over the whole height. */
function spanLayer(spans: readonly Domain[], frame: PanelFrame, color: object, opacity: number): object {
  const { x } = frame;
  const values = spans
    .map(({ from, to }) => ({ t: Math.max(x.from, from), t2: Math.min(x.to, to) }))
    .filter(({ t, t2 }) => t < t2);
  return {
    data: { values },
    mark: { type: 'rect', aria: false, color, opacity },
    encoding: { x: timeAxis('t', frame), x2: { field: 't2' } },
  };
}

/** A place may be one sample long: it is drawn at least so wide that it can be seen. */
function placeLayers({ places = [] }: Panel, frame: PanelFrame): object[] {
  if (places.length === 0) return [];
  const least = (frame.x.to - frame.x.from) / 250;
  const spans = places.map(({ from, to }) => ({
    from: Math.min(from, (from + to - least) / 2),
    to: Math.max(to, (from + to + least) / 2),
  }));
  const names = places.slice(0, 12).map(({ from, label }) => ({ t: drawn(Math.max(from, frame.x.from)), label }));
  const named = names.filter(({ label }, index) => names.findIndex((other) => other.label === label) === index);
  return [spanLayer(spans, frame, role('higher'), 0.35), ...nameLayers(named, frame, 3)];
}

function markLayers(frame: PanelFrame): object[] {
  const data = {
    values: frame.marks
      .filter(({ at }) => at >= frame.x.from && at <= frame.x.to)
      .map(({ at, label }) => ({ t: drawn(at), label })),
  };
  if (data.values.length === 0) return [];
  return [
    { data, mark: { type: 'rule', aria: false, strokeDash: [3, 3] }, encoding: { x: timeAxis('t', frame) } },
    ...nameLayers(data.values, frame, 4),
  ];
}

/** Names to the right of their places along the upper edge, kept clear of the trace by a rim in the background's colour. */
function nameLayers(values: readonly object[], frame: PanelFrame, dx: number): object[] {
  const mark = { type: 'text', aria: false, align: 'left', dx, y: 8 };
  const encoding = { x: timeAxis('t', frame), text: { field: 'label', type: 'nominal' } };
  const rim = { stroke: role('background'), strokeWidth: 4, fill: role('background') };
  return [
    { data: { values }, mark: { ...mark, ...rim }, encoding },
    { data: { values }, mark: { ...mark, fill: role('ink') }, encoding },
  ];
}

/** Invisible strips that say the lowest and highest sample there. */
function stripLayer({ run, channel, label }: Panel, frame: PanelFrame): object {
  const source = run.untrimmed ?? run;
  const unit = printedUnit(channel.unit.symbol);
  const values = pieces(source, channel.name, frame.x, frame.alone ? 200 : 80).flatMap(({ t, v, v2 }) =>
    t.map((at, index) => {
      const to = t[index + 1] ?? at + (t[1] ?? at) - t[0];
      return {
        t: at,
        t2: Math.min(to, frame.x.to),
        says: `${label}\n${plain(at, 5)} to ${plain(to, 5)} s\n${significant(v[index], 3)} to ${significant(v2[index], 3)} ${unit}`,
      };
    }),
  );
  return {
    name: `${stripName} ${label}`.replace(/\W+/g, '_'),
    data: { values },
    mark: { type: 'rect', aria: false, color: role('ink'), tooltip: { content: 'encoding' } },
    encoding: { x: timeAxis('t', frame), x2: { field: 't2' }, tooltip: { field: 'says', type: 'nominal' } },
  };
}
