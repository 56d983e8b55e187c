import type { ProfileValue } from '../../values/profile.ts';
import { frequencyAxis, legendRows, logDomain, logLevelAxis, seriesLegend } from '../axes.ts';
import { axisTitle, capitalised, listed, printedUnit, quantityName } from '../names.ts';
import { drawn, hertz, hertzSpan, significant } from '../number.ts';
import type { ChartPart } from '../output.ts';
import { chartPart, fullWidth, role, seriesColour, seriesDash, seriesShape } from '../specification.ts';

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
      f: from.frequency * (to.frequency / from.frequency) ** (step / steps),
      v: from.density * (to.density / from.density) ** (step / steps),
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
  const { unit, rmsUnit } = profiles[0].value;
  const names = profiles.map(({ name }, index) => name ?? `profile ${index + 1}`);
  const scale = (range: (index: number) => unknown): object => ({
    domain: names,
    range: names.map((_, index) => range(index)),
  });
  const values = profiles.flatMap(({ value }, index) =>
    value.points.map(({ frequency, density }) => ({
      f: drawn(frequency),
      v: drawn(density),
      series: names[index],
      says: `${hertz(frequency)}\n${significant(density, 3)} ${printedUnit(unit.symbol)}`,
    })),
  );
  const quantity = `${quantityName(rmsUnit.dimension)} spectral density`;
  // One profile is named in the title, if it has a name.
  const legend = profiles.length > 1 ? seriesLegend(names, undefined) : null;
  const color = { field: 'series', type: 'nominal', scale: scale(seriesColour), legend };
  const encoding = {
    x: { field: 'f', ...frequencyAxis(x, 'log') },
    y: { field: 'v', ...logLevelAxis(axisTitle(quantity, unit), y) },
    color,
  };
  return chartPart({
    title: `${capitalised(quantity)} profile${profiles.some(({ name }) => name !== undefined) ? `: ${listed(names)}` : ''}`,
    view: {
      width: fullWidth,
      height: plotHeight,
      data: { values },
      layer: [
        {
          mark: { type: 'line', aria: false, strokeWidth: role('strong') },
          encoding: {
            ...encoding,
            strokeDash: { field: 'series', type: 'nominal', scale: scale(seriesDash), legend: null },
          },
        },
        {
          mark: { type: 'point', aria: false, filled: true, size: 60, opacity: 1, tooltip: { content: 'encoding' } },
          encoding: {
            ...encoding,
            shape: {
              field: 'series',
              type: 'nominal',
              scale: scale(seriesShape),
              legend,
            },
            tooltip: { field: 'says', type: 'nominal' },
          },
        },
      ],
    },
    height: plotHeight + 46,
    legendRows: profiles.length > 1 ? legendRows(names) : 0,
    description: profiles
      .map(({ value }, index) => {
        const frequencies = value.points.map(({ frequency }) => frequency);
        return `${names[index]}: ${value.points.length} breakpoints over ${hertzSpan(Math.min(...frequencies), Math.max(...frequencies))}, ${significant(value.rms, 3)} ${printedUnit(rmsUnit.symbol)} r.m.s. in all.`;
      })
      .join(' '),
  });
}
