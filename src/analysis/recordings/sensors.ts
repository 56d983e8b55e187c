import type { Run, RunFacts } from '../../values/run.ts';

/** A column that names the sensor itself goes before one that names the recorder, to which several may belong. */
const sensorColumns = [/^(sensor|accelerometer)\b/i, /^logger\b/i];

/**
 * What the sensor of a run is called: by the run sheet's columns, and by the sensor of the file where `load` chose one of
 * several. Undefined where neither says anything.
 *
 * @param chosen sensors that were taken of the file; several stand beside each other and are told apart by their channels
 */
export function sensorNamed(facts: RunFacts | undefined, chosen: readonly string[] | undefined): string | undefined {
  const cells = Object.entries(facts?.facts ?? {}).map(([header, cell]) => [header.trim(), cell.trim()] as const);
  const named = sensorColumns.map((column) =>
    cells.flatMap(([header, cell]) => (column.test(header) && cell !== '' ? [cell] : [])),
  );
  const ofFile = chosen?.length === 1 ? chosen : [];
  const words = [...(named.find((found) => found.length > 0) ?? []), ...ofFile];
  return words.length === 0 ? undefined : words.join(' ');
}

/** The sensor of a run as it is told; runs of none that has a name are of one. */
export const sensorOf = ({ sensor = 'the sensor' }: Run): string => sensor;
