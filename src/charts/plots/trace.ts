import { capitalised, counted, listed } from '../../result/words.ts';
import { channelWords } from '../../values/resultant.ts';
import { gapCount, type Run } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { Domain } from '../axes.ts';
import { distinct, drawnQuantity, printedUnit } from '../names.ts';
import { plain, significant } from '../../values/number.ts';
import type { ChartPart } from '../output.ts';
import { chartPart } from '../specification.ts';
import type { PlaceMark } from './overlayOptions.ts';
import { endOf, extent, levelDomain, timeDomain, traceOf } from './traceData.ts';
import { panelView, type Panel, type TracedPanel } from './tracePanel.ts';

/** Runs over time, a panel for each run and channel: lowest and highest sample of every column of the picture. */

export interface TraceOptions {
  readonly over?: Domain;
  readonly marks: readonly PlaceMark[];
}

/** Beyond this many panels a chart is no longer read but scrolled past. */
const panelLimit = 12;

export function traceChart(
  sets: readonly { readonly name: string | undefined; readonly value: RunsValue }[],
  options: TraceOptions,
): ChartPart | undefined {
  const panels = panelsOf(sets);
  return panelChart(
    panels,
    options,
    `over time: ${shownNames(sets, distinct(panels.map((panel) => panel.run.label)))}`,
  );
}

/** The run alone, else the sets, for each panel names its run; else as many runs as a title can hold. */
function shownNames(
  sets: readonly { readonly name: string | undefined; readonly value: RunsValue }[],
  runs: readonly string[],
): string {
  const called = sets.flatMap(({ name, value }) => value.set ?? name ?? []);
  if (runs.length > 1 && called.length === sets.length) return listed(distinct(called));
  return runs.length <= 4 ? listed(runs) : counted(runs.length, 'run');
}

/** Any panels under one another on one time axis. */
export function panelChart(all: readonly Panel[], { over, marks }: TraceOptions, about: string): ChartPart | undefined {
  if (all.length === 0) return undefined;
  const panels = all.slice(0, panelLimit).map((panel) => ({ ...panel, trace: traceOf(panel.run, panel.channel) }));
  const alone = panels.length === 1;
  const quantities = distinct(panels.map(({ channel }) => drawnQuantity(channel)));
  const x = timeDomain(
    panels.map(({ run }) => run),
    over,
  );
  const height = alone ? 200 : panels.length < 5 ? 92 : 60;
  const cut =
    all.length > panels.length
      ? ` The first ${panels.length} of ${all.length} are shown; pick single runs to see the others.`
      : '';
  const trimmed = panels.some(({ run }) => run.untrimmed !== undefined) ? '; grey: outside the stretch in use' : '';
  const vector = panels.some(({ channel }) => channel.axes !== undefined)
    ? ' A resultant is drawn as the length of its vector, each axis about its mean in the stretch in use.'
    : '';
  return chartPart({
    what: 'trace',
    title: `${capitalised(quantities.length === 1 ? quantities[0] : 'signals')} ${about}${alone ? `, channel ${channelWords(panels[0].channel)}` : ''}`,
    subtitle: `Each column of the picture reaches from the lowest to the highest sample in it${trimmed}.${vector}${cut}`,
    view: {
      spacing: 10,
      vconcat: panels.map((panel, index) =>
        panelView(panel, {
          x,
          y: levelDomain(panels, panel.channel),
          height,
          marks,
          last: index === panels.length - 1,
          alone,
        }),
      ),
    },
    height: panels.length * (height + (alone ? 10 : 30)) + 40,
    description: traceDescription(panels, x) + cut,
    axis: { quantity: 'time', sets: panels.map(({ set = 0 }) => set) },
  });
}

/** Colour tells sets apart where there are several, else channels. */
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
        set,
      })),
    ),
  );
}

function traceDescription(panels: readonly TracedPanel[], x: Domain): string {
  const lines = panels.map(({ label, run, channel, trace, places = [] }) => {
    const { from, to } = extent(trace.used);
    const range = `${significant(from, 3)} to ${significant(to, 3)} ${printedUnit(channel.unit.symbol)}`;
    const gaps = gapCount(run) > 0 ? `, ${counted(gapCount(run), 'gap')}` : '';
    const marked = places.length === 0 ? '' : `, marked: ${listed(distinct(places.map((place) => place.label)))}`;
    return `${label}: ${range}${stretchWords(run)}${gaps}${marked}.`;
  });
  return `Time traces from ${plain(x.from, 5)} to ${plain(x.to, 5)} s. ${lines.join(' ')}`;
}

function stretchWords(run: Run): string {
  if (run.untrimmed === undefined) return '';
  return `, the stretch in use ${plain(run.start, 5)} to ${plain(endOf(run), 5)} s of ${plain(endOf(run.untrimmed), 5)} s`;
}
