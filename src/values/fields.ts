import { nameOfDimension, type NamedDimension } from '../units/dimension.ts';
import { nearest } from '../units/nearest.ts';
import type { UncertaintyPart } from '../units/uncertainty.ts';
import type { SensorUncertainty } from './run.ts';
import { sensorInput } from './rowParts.ts';
import { unit as unitOf } from '../units/parse.ts';
import { success, type Result } from '../result/result.ts';
import type { Column, Figure } from './description.ts';
import { descriptionOf, kinds } from './kinds.ts';
import { refuse } from './messages.ts';
import { figuresIn } from './rows.ts';
import type { Kind, Value } from './value.ts';

/** A scalar that can be read off a value of a kind: `C.change`. */
export interface FieldForm {
  readonly name: string;
  readonly doc: string;
  /** What it measures, where that does not depend on the value. */
  readonly dimension?: NamedDimension;
}

/** The fields of a kind, those of its rows first. */
export function fieldsOf(kind: Kind): readonly FieldForm[] {
  const { rows, whole } = kinds[kind];
  return [...formsIn(rows?.columns, rows?.each[1]), ...formsIn(whole, undefined)];
}

function formsIn(columns: readonly Column<never, never>[] = [], owner: string | undefined): FieldForm[] {
  return figuresIn(columns).flatMap(({ key, unit, doc }) => {
    if (doc === undefined) return [];
    const form = { name: key, doc: owner === undefined ? doc : `${doc} of ${owner}` };
    // What is in the data's own unit measures what the data measure.
    const dimension = typeof unit === 'string' ? nameOfDimension(unitOf(unit).dimension) : undefined;
    return [dimension === undefined ? form : { ...form, dimension }];
  });
}

/** A scalar of a result; where a result has several rows, one must be picked first. */
export function fieldOf(value: Value, field: string): Result<Value> {
  const { kind } = value;
  const known = fieldsOf(kind).map(({ name }) => name);
  if (known.length === 0) return refuse('field.kind', { kind });
  const { rows, whole } = descriptionOf(value);
  const ofRow = figureNamed(rows?.columns ?? [], field);
  if (rows !== undefined && ofRow !== undefined) {
    const all = rows.of(value);
    const speaking = rows.speakers?.(all) ?? all;
    if (speaking.length !== 1) return refuse('field.many', { field, each: rows.each[0], count: speaking.length });
    return quantityOf(ofRow, speaking[0], value, rows.sensor?.(speaking[0], value));
  }
  const ofWhole = figureNamed(whole, field);
  if (ofWhole !== undefined) return quantityOf(ofWhole, value, value);
  return refuse('field.unknown', { kind, field, near: nearest(field, known)[0], known });
}

const figureNamed = <Row>(columns: readonly Column<Row, Value>[], field: string): Figure<Row, Value> | undefined =>
  figuresIn(columns).find(({ key, doc }) => key === field && doc !== undefined);

function quantityOf<Row>(
  { key, read, unit, parts, bySensor }: Figure<Row, Value>,
  row: Row,
  of: Value,
  sensor?: SensorUncertainty,
): Result<Value> {
  const value = read(row, of);
  if (typeof value !== 'number' || !Number.isFinite(value)) return refuse('field.absent', { field: key });
  const scales = typeof unit !== 'string' || bySensor === true;
  const known = parts?.(row, of) ?? (scales && sensor !== undefined ? [sensorPart(value, sensor)] : undefined);
  return success({
    kind: 'quantity',
    quantity: { value, unit: typeof unit === 'string' ? unitOf(unit) : unit(row, of) },
    ...(known === undefined ? {} : { parts: known }),
  });
}

/** A figure grows with the sensitivity of its sensor. */
const sensorPart = (value: number, { relative, sensor, axis, df = Infinity }: SensorUncertainty): UncertaintyPart => ({
  input: sensorInput(sensor, axis),
  size: value * relative,
  df,
});
