import { firstShown, spaced } from '../words/limits.ts';
import {
  overTime,
  shownNames,
  traceDescription,
  traceSubtitle,
  traceTitle,
  type TracedFacts,
} from '../words/recordings.ts';
import { drawnRun } from '../../values/outline.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { Domain } from '../axes.ts';
import { distinct } from '../words/names.ts';
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
export const panelLimit = 12;

/** The panels that are drawn of all. */
export const drawnPanels = (all: readonly Panel[]): readonly Panel[] => all.slice(0, panelLimit);

export function traceChart(
  sets: readonly { readonly name: string | undefined; readonly value: RunsValue }[],
  options: TraceOptions,
): ChartPart | undefined {
  const panels = tracePanels(sets);
  return panelChart(
    panels,
    options,
    overTime(
      shownNames(
        sets.length,
        sets.flatMap(({ name, value }) => value.set ?? name ?? []),
        distinct(panels.map((panel) => panel.run.label)),
      ),
    ),
  );
}

/** Any panels under one another on one time axis. */
export function panelChart(all: readonly Panel[], { over, marks }: TraceOptions, about: string): ChartPart | undefined {
  if (all.length === 0) return undefined;
  const panels = drawnPanels(all)
    .map(asDrawn)
    .map((panel) => ({ ...panel, trace: traceOf(panel.run, panel.channel) }));
  const alone = panels.length === 1;
  const x = timeDomain(
    panels.map(({ run }) => run),
    over,
  );
  const height = alone ? 200 : panels.length < 5 ? 92 : 60;
  const cut = firstShown(panels.length, all.length, 'pick runs');
  const isTrimmed = panels.some(({ run }) => run.untrimmed !== undefined);
  const hasResultant = panels.some(({ channel }) => channel.axes !== undefined);
  return chartPart({
    what: 'trace',
    title: traceTitle(
      panels.map(({ channel }) => channel),
      about,
    ),
    subtitle: spaced(traceSubtitle(isTrimmed, hasResultant), cut),
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
    description: spaced(traceDescription(panels.map(factsOf), x), cut),
    axis: { quantity: 'time', sets: panels.map(({ set = 0 }) => set) },
  });
}

/** A panel whose samples stand in memory. */
function asDrawn(panel: Panel): Panel {
  const run = drawnRun(panel.run);
  if (run === panel.run) return panel;
  const channel = run.channels[panel.run.channels.indexOf(panel.channel)] ?? panel.channel;
  return { ...panel, run, channel };
}

/** Colour tells sets apart where there are several, else channels. */
export function tracePanels(sets: readonly { readonly value: RunsValue }[]): Panel[] {
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

const factsOf = ({ label, run, channel, trace, places = [] }: TracedPanel): TracedFacts => ({
  label,
  run,
  channel,
  extent: extent(trace.used),
  used: { from: run.start, to: endOf(run) },
  untrimmedTo: run.untrimmed === undefined ? undefined : endOf(run.untrimmed),
  places: places.map((place) => place.label),
});
