import { success, type Message, type Refused, type Result } from '../result/result.ts';
import { findChannels } from './channels.ts';
import { missingSamples } from './clock/missing.ts';
import { hasGaps } from './gaps.ts';
import type { Clock, Finding, Layout, LeftOut, ReadOptions, RecordedChannel, Recording } from './recording.ts';
import { finding, refuse } from './messages.ts';
import { leftOutFor } from './messages/leftOut.ts';
import { readHeader } from './names.ts';
import { findRoles, type Roles } from './roles.ts';
import { pick } from './rows.ts';
import { soundRows } from './soundRows.ts';
import { pickSensors } from './sensors.ts';
import { withoutSentinels } from './sentinels.ts';
import { worstFirst } from '../result/severity.ts';
import { calibrated, type Calibration } from './calibration.ts';
import { columnName, type Table, type TableColumn } from './table.ts';
import { zoneMinutes } from './text/stamp.ts';
import type { StartTime } from './text/startTime.ts';
import { timing, zoneShift, type StatedRate, type Timing } from './timing.ts';

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
  /** When the recording began, where the lines above its rows say so. */
  readonly start?: StartTime | undefined;
}

/** A file's columns, and what else it says. */
export interface Reading {
  readonly origin: Origin;
  readonly table: Table;
}

/**
 * Makes a recording of a table: says which column is what, and when samples were taken. Refuses a table of which that
 * can't be said, or too little is left.
 */
export function assemble(reading: Reading, options: ReadOptions): Result<Recording> {
  const found = assembled(reading, options);
  return found.ok ? success(found.value.recording) : found;
}

/** A recording, and what its clock was made of. */
export interface Assembled {
  readonly recording: Recording;
  readonly timed: Timing;
  readonly time: Roles['time'];
  readonly origin: Origin;
  readonly lineOf: Table['lineOf'];
}

/** As `assemble`, for whoever joins recordings. */
export function assembled({ origin, table: whole }: Reading, options: ReadOptions): Result<Assembled> {
  const { path } = origin;
  const badOption = refusedOption(path, options);
  if (badOption) return badOption;
  const { table, findings: bared } = withoutSentinels(whole, options);
  if (table.rows < 2) return refuse('too-short', { path, rows: table.rows === 0 ? 0 : 1 });
  const picked = pickSensors(path, table, options, origin.stated?.rate);
  if (!picked.ok) return picked;
  const { table: rows, sensor, sensors } = picked.value;
  const misread = axisOfText(path, rows, options);
  if (misread) return misread;
  const roles = findRoles(path, rows, options, origin.stated?.rate);
  if (!roles.ok) return roles;
  const named = findChannels(path, rows, channelColumns(rows, roles.value, sensor), origin.unit, options);
  if (!named.ok) return named;
  const read = origin.calibration ? calibrated(named.value, origin.calibration, options) : named.value;
  const taken = options.tacho === undefined || options.wanted === undefined ? [] : [options.tacho];
  const asked = [...Object.keys(options.channels ?? {}), ...(options.wanted ?? []), ...taken];
  const sound = soundRows(path, rows, roles.value.time?.seconds, read.channels, asked);
  if (!sound.ok) return sound;
  const isUnsettled = read.unit.remark?.code === 'unit-unsettled';
  const timed = timing(path, rows, roles.value, sound.value, { stated: origin.stated, isUnsettled }, options);
  if (!timed.ok) return timed;
  const channels = read.channels.map((channel) => ({ ...channel, samples: pick(channel.samples, timed.value.rows) }));
  const gapless = dropGappy(channels);
  const leftOut = [...read.leftOut, ...gapless.leftOut, ...otherColumns(rows, roles.value, sensor)];
  const { clock } = timed.value;
  const findings = [
    ...origin.findings,
    ...bared,
    ...picked.value.findings,
    ...sound.value.findings,
    ...timed.value.findings,
    ...(read.unit.remark ? [read.unit.remark] : []),
    ...(table.named ? [] : [finding('no-header', 'note', { names: gapless.channels.map(({ name }) => name) })]),
    ...droppedSamples(origin.dropped, clock),
  ];
  const recording: Recording = {
    file: path,
    layout: layoutOf(origin.layout, rows, roles.value.time, timed.value, leftOut, sensors),
    channels: gapless.channels,
    clock: { ...clock, epoch: epochOf(clock, roles.value.time, origin, options) },
    findings: worstFirst(findings, (one) => one),
  };
  return success({ recording, timed: timed.value, time: roles.value.time, origin, lineOf: rows.lineOf });
}

/** Seconds after which a clock that counts from the start of the recording is one that was running before. */
const longestElapsed = 60;

/** The time of the first sample on the file's own clock; a start above the rows gives it the date that its column lacks. */
function epochOf(
  { epoch }: Clock,
  time: Roles['time'],
  { epoch: stated, start }: Origin,
  { timezone }: ReadOptions,
): number | undefined {
  if (time?.base !== undefined || start === undefined) return epoch ?? stated;
  const shift = zoneShift(start.zone, timezone);
  if (time === undefined || epoch === undefined) return start.seconds + shift;
  const isOfDay = /^(clock|hhmmss)/.test(time.style);
  if (isOfDay) return start.day + shift + epoch;
  return start.seconds + shift + (epoch > 0 && epoch < longestElapsed ? epoch : 0);
}

/** What the logger says it lost, where gaps do not show it. */
export function droppedSamples(dropped: number | undefined, { stretches, rate }: Clock): Finding[] {
  if (dropped === undefined || dropped <= missingSamples(stretches, rate)) return [];
  return [finding('dropped-samples', 'warning', { dropped }, { value: dropped })];
}

/** A column that is an axis by its name, or numbers by all but a mark, and still reads as text: the layout is misread. */
function axisOfText(path: string, { columns }: Table, options: ReadOptions): Refused | undefined {
  const named = Object.keys(options.channels ?? {});
  for (const [index, column] of columns.entries()) {
    if (column.kind !== 'label' && column.kind !== 'other') continue;
    const axis = column.header === undefined ? undefined : readHeader(column.header, column.unitBelow).axis;
    const cells = column.kind === 'label' ? column.labels : (column.cells ?? []);
    const some = cells.filter((cell) => /\d/.test(cell));
    const stray = some.length > 0.5 * cells.length && some.every((cell) => strayMark.test(cell.trim()));
    if (some.length === 0 || (axis === undefined && !stray) || (axis !== undefined && named.includes(axis))) continue;
    return refuse('axis-not-numbers', {
      path,
      column: columnName(column, index),
      isNamed: axis !== undefined,
      text: some[0],
    });
  }
  return undefined;
}

/** A number with a bracket, a quote, a delimiter or a checksum stuck to it. */
const strayMark = /^(?:[[({<"';:|]+[-+]?[\d.,]+|[-+]?[\d.,]+[\])}>"';:|]+|[-+]?\d+[.,]\d+[*#&$][\dA-F]*)$/i;

function refusedOption(path: string, { scale, unit, timezone }: ReadOptions): Refused | undefined {
  if (scale !== undefined && !(Number.isFinite(scale) && scale !== 0)) return refuse('scale', { path });
  if (scale !== undefined && unit === undefined) return refuse('scale', { path, lacksUnit: { scale } });
  const isOffset = timezone === undefined || timezone === 'local' || zoneMinutes(timezone) !== undefined;
  return isOffset ? undefined : refuse('timezone', { path, timezone });
}

function channelColumns(table: Table, roles: Roles, sensor: number | undefined): number[] {
  const used = new Set([roles.time?.index, roles.counter, sensor, ...roles.leftOut.map(({ index }) => index)]);
  return table.columns.flatMap(({ kind }, index) => (kind === 'number' && !used.has(index) ? [index] : []));
}

/** A channel that is no axis and still has empty cells can't be sampled evenly: it is left out. */
function dropGappy(channels: readonly RecordedChannel[]): { channels: RecordedChannel[]; leftOut: LeftOut[] } {
  const gappy = channels.filter(({ samples }) => hasGaps(samples));
  const leftOut = gappy.map((one) => ({ column: `"${one.header ?? one.name}"`, why: leftOutFor('column.gaps', {}) }));
  return { channels: channels.filter((one) => !gappy.includes(one)), leftOut };
}

function otherColumns(table: Table, roles: Roles, sensor: number | undefined): LeftOut[] {
  return table.columns.flatMap((column, index) => {
    const why =
      roles.leftOut.find((one) => one.index === index)?.why ??
      (index === roles.counter ? leftOutFor('column.counter', {}) : undefined) ??
      (index === sensor ? leftOutFor('column.sensor', {}) : undefined) ??
      (index === roles.time?.index ? undefined : whyNoChannel(column));
    return why === undefined ? [] : [{ column: columnName(column, index), why }];
  });
}

/** Why a column that is not the time is no channel, by what it holds. */
function whyNoChannel(column: TableColumn): Message | undefined {
  switch (column.kind) {
    case 'number':
      return undefined;
    case 'label':
      return leftOutFor('column.text', { texts: column.labels.slice(0, 3), count: column.labels.length });
    case 'stamp':
      return leftOutFor(column.clock ? 'column.other-time' : 'column.dates', {});
    case 'other':
      return column.why;
  }
}

function layoutOf(
  layout: Layout,
  { columns }: Table,
  time: Roles['time'],
  { stamps }: Timing,
  leftOut: readonly LeftOut[],
  sensors: readonly string[] | undefined,
): Layout {
  const asTime = time && {
    column: columns[time.index].header ?? `column${time.index + 1}`,
    style: time.style,
    quantum: stamps?.quantum ?? time.resolution,
  };
  return {
    ...layout,
    ...(asTime ? { time: asTime } : {}),
    ...(leftOut.length > 0 ? { leftOut } : {}),
    ...(sensors ? { sensors } : {}),
  };
}
