import { profileName, profileQuantity, profileSentence, profileTitle } from '../words/spectra.ts';
import type { ProfileValue } from '../../values/profile.ts';
import { frequencyAxis, logDomain, logLevelAxis } from '../axes.ts';
import { bySeries, legendRows } from '../legends.ts';
import { dots, layered, layerOf } from '../marks.ts';
import { axisTitle } from '../words/names.ts';
import { drawn, hertz, significant, printedUnit } from '../../values/number.ts';
import type { ChartPart } from '../output.ts';
import { belowPlot, chartPart, role } from '../specification.ts';
import { powerOf } from '../../numbers/power.ts';

export interface NamedProfile {
  readonly name: string | undefined;
  readonly value: ProfileValue;
}

const plotHeight = 260;

/** Points between the breakpoints too: what is straight on log-log paper is bent on any other. */
export function profileCurve(points: ProfileValue['points']): { f: (number | null)[]; v: (number | null)[] } {
  const steps = 24;
  const curve = points.slice(1).flatMap((to, index) => {
    const from = points[index];
    return Array.from({ length: steps + 1 }, (_, step) => ({
      f: from.frequency * powerOf(to.frequency / from.frequency, step / steps),
      v: from.density * powerOf(to.density / from.density, step / steps),
    }));
  });
  return { f: curve.map(({ f }) => drawn(f)), v: curve.map(({ v }) => drawn(v)) };
}

/** Breakpoints joined on log-log paper. */
export function profileChart(profiles: readonly NamedProfile[]): ChartPart | undefined {
  const points = profiles.flatMap(({ value }) => value.points);
  const x = logDomain(points.map(({ frequency }) => frequency));
  const y = logDomain(points.map(({ density }) => density));
  if (x === undefined || y === undefined) return undefined;
  const { unit } = profiles[0].value;
  const names = profiles.map(({ name }, index) => profileName(name, index));
  const values = profiles.flatMap(({ value }, index) =>
    value.points.map(({ frequency, density }) => ({
      f: drawn(frequency),
      v: drawn(density),
      series: names[index],
      says: `${hertz(frequency)}\n${significant(density, 3)} ${printedUnit(unit.symbol)}`,
    })),
  );
  const quantity = profileQuantity(profiles[0].value);
  // One profile is named in the title, if it has a name.
  const { color, shape, strokeDash } = bySeries(names, 'dot', profiles.length > 1 ? {} : { legend: null });
  const axes = { x: frequencyAxis(x, 'log'), y: logLevelAxis(axisTitle(quantity, unit), y) };
  return chartPart({
    what: 'profile',
    title: profileTitle(profiles[0].value, profiles.some(({ name }) => name !== undefined) ? names : []),
    axis: { quantity: 'frequency' },
    view: layered(
      plotHeight,
      [
        layerOf(undefined, { type: 'line', strokeWidth: role('strong') }, { ...axes, color, strokeDash }),
        dots(undefined, 60, { ...axes, color, shape }),
      ],
      { data: { values } },
    ),
    height: plotHeight + belowPlot,
    legendRows: profiles.length > 1 ? legendRows(names) : 0,
    description: profiles.map(({ value }, index) => profileSentence(names[index], value)).join(' '),
  });
}
