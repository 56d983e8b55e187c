import type { Column, Described, Detail, Rows, SeriesColumn } from './description.ts';
import { kinds } from './kinds.ts';
import { figuresIn, jsonKey } from './rows.ts';
import { exactly, shaped, type Schema } from './shapes.ts';
import type { Kind, Value } from './value.ts';

/** What JSON of a kind of value looks like, made from the kind's description as the JSON itself is. */
export function kindSchema(kind: Kind): Schema {
  const { words, jsonSchema, whole, rows, after = [], handsOnExcluded } = kinds[kind] as Described<Value>;
  const own = jsonSchema ?? columnsSchema([...whole, ...after], rows);
  const excluded = handsOnExcluded === true ? { excluded: shaped('rows') } : {};
  return {
    ...own,
    description: words,
    properties: { ...(own['properties'] as Schema), ...excluded },
  };
}

function columnsSchema(columns: readonly Column<unknown, Value>[], rows: Rows<Value> | undefined): Schema {
  const { properties, optional } = columnSchemas(columns);
  if (rows === undefined) return exactly(properties, optional);
  const unit = rows.unit === undefined ? {} : { unit: shaped('text') };
  return exactly({ ...unit, ...properties, [rows.key]: { type: 'array', items: rowSchema(rows) } }, optional);
}

function rowSchema({ names, columns, series, unit }: Rows<Value>): Schema {
  const { properties, optional } = columnSchemas([...names, ...columns]);
  const lists = (series?.columns ?? []).flatMap((column: SeriesColumn<unknown, Value>) =>
    column.json === null ? [] : [[jsonKey(column), listSchema(column)] as const],
  );
  // A row says its unit only where that is another than the first one's.
  const own = unit === undefined ? {} : { unit: shaped('text') };
  return exactly({ ...own, ...properties, ...Object.fromEntries(lists) }, [...Object.keys(own), ...optional]);
}

const listSchema = ({ json, unit }: SeriesColumn<unknown, Value>): Schema => ({
  ...(json === undefined ? shaped('numbers') : { type: 'array' }),
  ...unitWords(unit),
});

function columnSchemas(columns: readonly Column<unknown, Value>[]): {
  properties: Record<string, Schema>;
  optional: string[];
} {
  const figures = new Set<unknown>(figuresIn(columns));
  const properties: Record<string, Schema> = {};
  const optional: string[] = [];
  for (const column of columns) {
    if (!figures.has(column)) {
      properties[column.key] = shaped((column as Detail<unknown, Value>).shape ?? 'any');
      optional.push(column.key);
      continue;
    }
    const [figure] = figuresIn([column]);
    const { json, notIn, unit, doc } = figure;
    if (json !== undefined) {
      properties[figure.key] = shaped('any');
      if (figure.optional === true) optional.push(figure.key);
    } else if (notIn !== 'json and table')
      properties[jsonKey(figure)] = {
        ...shaped(unit === '' ? 'scalar' : 'number'),
        ...(doc === undefined ? {} : { description: doc }),
        ...unitWords(unit),
      };
  }
  return { properties, optional };
}

/** The unit of a figure, where it never varies; elsewhere the data's own, which `unit` says. */
const unitWords = (unit: unknown): Schema => (typeof unit === 'string' && unit !== '' ? { 'x-unit': unit } : {});
