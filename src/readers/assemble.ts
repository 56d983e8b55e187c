import { findChannels, namesRemark } from './channels.ts';
import { hasGaps } from './gaps.ts';
import type { Clock, Finding, Layout, ReadOptions, RecordedChannel, Recording, Severity } from './recording.ts';
import { Refused, list, quote } from './refusal.ts';
import { readHeader } from './names.ts';
import { findRoles, type Roles } from './roles.ts';
import { pick, pickSensor, soundRows, type Picked } from './rows.ts';
import { calibrated, type Calibration } from './calibration.ts';
import { columnName, type Table } from './table.ts';
import { zoneMinutes } from './text/stamp.ts';
import { timing, type StatedRate, type Timing } from './timing.ts';

/** What a file's reader knows besides its columns. */
export interface Origin {
  readonly path: string;
  readonly layout: Layout;
  readonly findings: readonly Finding[];
  readonly stated?: StatedRate | undefined;
  /** Unit of acceleration that the file states for all axes. */
  readonly unit?: string | undefined;
  /** What one count is on each axis, where the file states it. */
  readonly calibration?: Calibration | undefined;
  /** Samples that the logger says it lost. */
  readonly dropped?: number | undefined;
  /** Time of the first sample on the file's own clock in s, where no column tells it. */
  readonly epoch?: number | undefined;
}

const weight: Readonly<Record<Severity, number>> = { fault: 0, warning: 1, note: 2 };

/** Makes a recording of a table: says which column is what, and when samples were taken. Throws `Refused`. */
export function assemble(origin: Origin, table: Table, options: ReadOptions): Recording {
  const { path } = origin;
  refuseOptions(path, options);
  if (table.rows < 2) {
    throw new Refused(
      'too-short',
      `${path}: the file has ${table.rows === 0 ? 'no row' : 'one row'} of numbers; a recording needs two at least.`,
    );
  }
  const picked = pickSensor(path, table, options);
  refuseAxesOfText(path, picked.table, options);
  const roles = findRoles(path, picked.table, options, origin.stated?.rate);
  const named = findChannels(path, picked.table, channelColumns(picked, roles), origin.unit, options);
  const read = origin.calibration ? calibrated(named, origin.calibration, options) : named;
  const sound = soundRows(path, picked.table, roles.time?.seconds, read.channels);
  if (sound.rows.length < 2)
    throw new Refused('too-short', `${path}: fewer than two rows hold a reading of every axis.`);
  const timed = timing(path, picked.table, roles, sound.rows, origin.stated, options);
  const channels = read.channels.map((channel) => ({ ...channel, samples: pick(channel.samples, timed.rows) }));
  const whole = dropGappy(channels, read.leftOut);
  const remarks: Finding[] = [...origin.findings, ...sound.findings, ...timed.findings];
  if (read.unit.remark) remarks.push(read.unit.remark);
  const names = namesRemark(picked.table, whole.channels);
  if (names !== undefined) remarks.push({ code: 'no-header', severity: 'note', message: names });
  if (origin.dropped !== undefined && origin.dropped > missingSamples(timed.clock)) {
    remarks.push({
      code: 'dropped-samples',
      severity: 'warning',
      message: `The logger says that it dropped ${origin.dropped} samples: where is not told, so no spectrum can step over them.`,
      value: origin.dropped,
    });
  }
  const layout = layoutOf(origin.layout, picked, roles, timed, [
    ...whole.leftOut,
    ...otherColumns(picked.table, roles, picked),
  ]);
  const clock =
    timed.clock.epoch === undefined && origin.epoch !== undefined
      ? { ...timed.clock, epoch: origin.epoch }
      : timed.clock;
  const findings = remarks.sort((a, b) => weight[a.severity] - weight[b.severity]);
  return { file: path, layout, channels: whole.channels, clock, findings };
}

/** A column that is an axis by its name, or numbers by all but a mark, and still reads as text: the layout is misread. */
function refuseAxesOfText(path: string, { columns }: Table, options: ReadOptions): void {
  const named = Object.keys(options.channels ?? {});
  for (const [index, column] of columns.entries()) {
    if (column.kind !== 'label' && column.kind !== 'other') continue;
    const axis = column.header === undefined ? undefined : readHeader(column.header, column.unitBelow).axis;
    const cells = column.kind === 'label' ? column.labels : (column.cells ?? []);
    const some = cells.filter((cell) => /\d/.test(cell));
    const stray = some.length > 0.5 * cells.length && some.every((cell) => strayMark.test(cell.trim()));
    if (some.length === 0 || (axis === undefined && !stray) || (axis !== undefined && named.includes(axis))) continue;
    throw new Refused(
      'axis-not-numbers',
      `${path}: ${columnName(column, index)} ${axis ? 'is an axis by its name' : 'would be numbers'}, but cells such as ${quote(some[0])} are no numbers: say how they are spelt with decimal and delimiter, or write the file with plain numbers.`,
    );
  }
}

/** A number with a bracket, a quote, a delimiter or a checksum stuck to it. */
const strayMark = /^(?:[[({<"';:|]+[-+]?[\d.,]+|[-+]?[\d.,]+[\])}>"';:|]+|[-+]?\d+[.,]\d+[*#&$][\dA-F]*)$/i;

/** Samples that the gaps between stretches leave out. */
function missingSamples({ stretches, rate }: Clock): number {
  let missing = 0;
  for (let s = 1; s < stretches.length; s++) {
    const before = stretches[s - 1];
    missing += Math.max(0, Math.round((stretches[s].start - before.start) * rate) - (before.to - before.from));
  }
  return missing;
}

function refuseOptions(path: string, options: ReadOptions): void {
  const { rate, scale, unit, timezone } = options;
  if (rate !== undefined && !(rate > 0 && Number.isFinite(rate)))
    throw new Refused('rate', `${path}: rate must be above 0 Hz.`);
  if (scale !== undefined && !(Number.isFinite(scale) && scale !== 0))
    throw new Refused('scale', `${path}: scale must be a number other than 0.`);
  if (scale !== undefined && unit === undefined)
    throw new Refused(
      'scale',
      `${path}: scale is the value of one count in a unit, so it needs unit beside it, such as unit g scale ${scale}.`,
    );
  if (timezone !== undefined && timezone !== 'local' && zoneMinutes(timezone) === undefined) {
    throw new Refused(
      'timezone',
      `${path}: timezone "${timezone}" is not an offset from UTC: write one such as timezone "+02:00", or "local".`,
    );
  }
}

function channelColumns(picked: Picked, roles: Roles): number[] {
  const used = new Set([roles.time?.index, roles.counter, picked.sensor, ...roles.leftOut.map(({ index }) => index)]);
  return picked.table.columns.flatMap(({ kind }, index) => (kind === 'number' && !used.has(index) ? [index] : []));
}

/** A channel that is no axis and still has empty cells can't be sampled evenly: it is left out. */
function dropGappy(
  channels: readonly RecordedChannel[],
  leftOut: readonly { column: string; why: string }[],
): { channels: RecordedChannel[]; leftOut: { column: string; why: string }[] } {
  const gappy = channels.filter(({ samples }) => hasGaps(samples));
  const more = gappy.map((one) => ({ column: `"${one.header ?? one.name}"`, why: 'it has empty cells' }));
  return { channels: channels.filter((one) => !gappy.includes(one)), leftOut: [...leftOut, ...more] };
}

function otherColumns(table: Table, roles: Roles, picked: Picked): { column: string; why: string }[] {
  return table.columns.flatMap((column, index) => {
    const name = columnName(column, index);
    const time = roles.leftOut.find((one) => one.index === index);
    if (time) return [{ column: name, why: time.why }];
    if (index === roles.counter) return [{ column: name, why: 'it counts rows' }];
    if (index === picked.sensor) return [{ column: name, why: 'it names the sensor' }];
    if (column.kind === 'label')
      return [
        {
          column: name,
          why: `it holds text (${list(column.labels.slice(0, 3).map((label) => `"${label}"`))}${column.labels.length > 3 ? ', …' : ''})`,
        },
      ];
    if (column.kind === 'stamp' && index !== roles.time?.index)
      return [{ column: name, why: column.clock ? 'another time column was read' : 'it holds dates' }];
    return column.kind === 'other' ? [{ column: name, why: column.why }] : [];
  });
}

function layoutOf(
  layout: Layout,
  picked: Picked,
  roles: Roles,
  timed: Timing,
  leftOut: readonly { column: string; why: string }[],
): Layout {
  const { time } = roles;
  const column = time && picked.table.columns[time.index];
  return {
    ...layout,
    ...(time
      ? {
          time: {
            column: column?.header ?? `column${time.index + 1}`,
            style: time.style,
            quantum: timed.stamps?.quantum ?? time.spelling,
          },
        }
      : {}),
    ...(leftOut.length > 0 ? { leftOut } : {}),
    ...(picked.sensors ? { sensors: picked.sensors } : {}),
  };
}
