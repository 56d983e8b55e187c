import type { Handle, HandleEnd } from '../../charts/handle.ts';
import type { CheckedNotebook } from '../../language/check.ts';
import type { CheckedArgument, CheckedStatement } from '../../language/checked.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { Value } from '../../values/value.ts';
import { bandsUnder, breakpointsOf, comparedBands, cornersBelow, type CellHandle } from './bandHandles.ts';
import { cellNameOf, cellWords } from '../../language/cellName.ts';
import { plotHandles } from './plotHandles.ts';
import { givenUnder, Sites, type Site } from './sites.ts';
import { trimHandle } from './trimHandle.ts';

/** The literals that the charts of a statement's value draw, wherever in the notebook they stand. */
export function handlesOf(notebook: CheckedNotebook, statement: CheckedStatement, value: Value): readonly Handle[] {
  const { expression } = statement;
  if (expression === undefined) return [];
  const sites = new Sites(notebook);
  const own = sites.of(expression, statement);
  if (own === undefined) return [];
  const found =
    value.kind === 'chart' && own.call.verb === 'plot'
      ? [
          ...plotHandles(sites, own),
          ...givenUnder(own, 'subjects').flatMap((subject, index) =>
            ofSubject(sites, subject, own.statement, value.subjects.at(index)?.value, setOf(value, index)),
          ),
        ]
      : ofSubject(sites, expression, statement, value, undefined);
  const where = (cell: number): string => cellWords(cellNameOf(notebook, cell));
  return merged(found).map(({ cell, handle }) => ({
    ...handle,
    where: where(cell),
    ends: handle.ends.map((end) =>
      end.literal === undefined || end.literal.cell === cell ? end : { ...end, where: where(end.literal.cell) },
    ),
  }));
}

/** The place of a subject among those that are drawn over time, as a chart of traces counts its sets. */
function setOf({ subjects }: Extract<Value, { kind: 'chart' }>, index: number): number | undefined {
  const runs = subjects.flatMap(({ value }, at) => (value.kind === 'runs' ? [at] : []));
  return runs.length > 1 ? runs.indexOf(index) : undefined;
}

function ofSubject(
  sites: Sites,
  argument: CheckedArgument,
  statement: CheckedStatement,
  value: Value | undefined,
  set: number | undefined,
): CellHandle[] {
  const site = sites.of(argument, statement);
  if (site === undefined || value === undefined) return [];
  switch (value.kind) {
    case 'runs':
      return trimOf(sites, site, value, set);
    case 'findings':
      return [];
    case 'spectrum':
    case 'transfer':
    case 'peaks':
      return cornersBelow(sites, site);
    case 'bands':
      return [...bandsUnder(sites, site, 'bands', 'band'), ...cornersBelow(sites, site)];
    case 'profile':
      return breakpointsOf(
        sites,
        givenUnder(site, 'points').length === 1 ? (sites.under(site, 'points') ?? site) : site,
      );
    case 'comparison':
      return [
        ...comparedBands(sites, site),
        ...[...sites.allUnder(site, 'a'), ...sites.allUnder(site, 'b')].flatMap((side) => cornersBelow(sites, side)),
      ];
    case 'agreement':
    case 'calibration':
    case 'chart':
    case 'earlier':
    case 'levels':
    case 'loggers':
    case 'methods':
    case 'order':
    case 'plan':
    case 'pooled':
    case 'quantity':
    case 'repeats':
    case 'running':
    case 'sheet':
    case 'shock':
    case 'spectrogram':
    case 'table':
    case 'text':
    case 'verdict':
    case 'window':
      return [];
  }
}

function trimOf(sites: Sites, site: Site, value: RunsValue, set: number | undefined): CellHandle[] {
  const handle = trimHandle(sites, site, value);
  const cell = handle?.ends.find(({ literal }) => literal !== undefined)?.literal?.cell;
  if (handle === undefined || cell === undefined) return [];
  return [{ cell, handle: set === undefined ? handle : { ...handle, sets: [set] } }];
}

/** Each once: what several sets share is moved for all of them. */
function merged(found: readonly CellHandle[]): CellHandle[] {
  const byPlace = new Map<string, CellHandle>();
  for (const one of found) {
    const key = one.handle.ends.map(placeOf).join(' ');
    const before = byPlace.get(key);
    const sets = [...(before?.handle.sets ?? []), ...(one.handle.sets ?? [])];
    byPlace.set(key, sets.length === 0 ? (before ?? one) : { ...one, handle: { ...one.handle, sets } });
  }
  return [...byPlace.values()];
}

const placeOf = ({ literal, at }: HandleEnd): string =>
  literal === undefined ? String(at) : `${literal.cell}:${literal.from}`;
