import { comfortAt, directiveValues, vibrationTotal, type Comfort } from '../../signal/exposure.ts';
import { formatNumber } from '../../units/format.ts';
import type { LevelsRow } from '../../values/levels.ts';
import type { Run } from '../../values/run.ts';
import type { ExposureRow, ExposureValue } from '../../values/exposure.ts';

const cautions: readonly string[] = [
  'These ranges and values are of acceleration where it enters the body: on the seat’s surface under the sitter, or at the hand on the grip. A logger anywhere else does not measure that.',
  'Action and limit values are of a working day of eight hours, A(8); a recording is a sample of it, and the hours of exposure and all other exposures of the day come in.',
  'The comfort ranges are approximate reactions in public transport; what is accepted depends on many things besides.',
  'This is context and no finding on anyone’s health: the local rules and the practice of those licensed to assess exposure decide.',
];

/**
 * The published ranges beside the levels of weighted acceleration, in m/s^2, run by run (ISO 2631-1:1997, C.2.3;
 * Directive 2002/44/EC); undefined where no level is of weighted acceleration.
 * @param rows levels of signals, those of a resultant axis by axis, each in its channel's unit
 */
export function exposureOf(rows: readonly LevelsRow[]): ExposureValue | undefined {
  const runs = [...new Set(rows.map(({ run }) => run))];
  const found = runs.flatMap((run) =>
    exposureOfRun(
      run,
      rows.filter((row) => row.run === run),
    ),
  );
  return found.length === 0 ? undefined : { rows: found, cautions };
}

const inSI = (row: LevelsRow): number => row.rms * row.channel.unit.factor;
const weightingOf = (row: LevelsRow): string => row.channel.weighting ?? '';

/** Multiplying factor of an axis when the largest axis is what counts: 1.4 for Wd, 1 for Wk (ISO 2631-1:1997, 7.2.3). */
const factorOf = (row: LevelsRow): number => (weightingOf(row) === 'Wd' ? 1.4 : 1);

function exposureOfRun(run: Run, rows: readonly LevelsRow[]): ExposureRow[] {
  const hand = rows.filter((row) => weightingOf(row) === 'Wh');
  const body = rows.filter((row) => weightingOf(row) === 'Wd' || weightingOf(row) === 'Wk');
  const three = areSeatAxes(body);
  return [
    ...(three ? [bodyRow(run, body)] : body.map((row) => bodyRow(run, [row]))),
    ...(hand.length === 3 ? [handRow(run, hand)] : hand.map((row) => handRow(run, [row]))),
  ];
}

/** Two horizontal axes by Wd and the vertical one by Wk. */
function areSeatAxes(rows: readonly LevelsRow[]): boolean {
  return (
    rows.length === 3 &&
    rows.filter((row) => weightingOf(row) === 'Wd').length === 2 &&
    new Set(rows.map(({ channel }) => channel.name)).size === 3
  );
}

const figure = (value: number): string => `${formatNumber(value, 3)} m/s²`;

const comfortWords: Readonly<Record<Comfort, string>> = {
  not: 'not uncomfortable',
  'a-little': 'a little uncomfortable',
  fairly: 'fairly uncomfortable',
  uncomfortable: 'uncomfortable',
  very: 'very uncomfortable',
  extremely: 'extremely uncomfortable',
};

function bodyRow(run: Run, rows: readonly LevelsRow[]): ExposureRow {
  const total = vibrationTotal(rows.map((row) => ({ rms: inSI(row), factor: 1 })));
  const daily = Math.max(...rows.map((row) => factorOf(row) * inSI(row)));
  const comfort = comfortAt(total).map((comfort) => comfortWords[comfort]);
  const { action, limit } = directiveValues.wholeBody;
  const dose = directiveValues.wholeBodyDose;
  const names = rows.map((row) => `${row.channel.name} by ${weightingOf(row)}`).join(', ');
  const all = rows.length === 3;
  return {
    ...common(run, rows),
    body: 'whole body',
    total,
    daily,
    comfort,
    action,
    limit,
    sentences: [
      `${run.label}: the ${all ? `vector sum of ${names} is` : `weighted r.m.s. of ${names} alone is`} ${figure(total)}, which ISO 2631-1:1997, C.2.3 calls ${comfort.join(' and ')}${comfort.length > 1 ? ' (its ranges overlap)' : ''}${all ? '' : '; the other axes would add to it'}.`,
      `For comparison, Directive 2002/44/EC sets for eight hours an action value of ${figure(action)} and a limit value of ${figure(limit)} (or doses of ${dose.action} and ${dose.limit} m/s^1.75) of the largest of 1.4 x, 1.4 y and z; here ${all ? 'that is' : `${rows[0].channel.name} gives`} ${figure(daily)} while the recording lasts.`,
    ],
  };
}

function handRow(run: Run, rows: readonly LevelsRow[]): ExposureRow {
  const total = vibrationTotal(rows.map((row) => ({ rms: inSI(row), factor: 1 })));
  const { action, limit } = directiveValues.handArm;
  const all = rows.length === 3;
  const names = rows.map(({ channel }) => channel.name).join(', ');
  return {
    ...common(run, rows),
    body: 'hand and arm',
    total,
    daily: total,
    comfort: [],
    action,
    limit,
    sentences: [
      `${run.label}: the ${all ? `vector sum of ${names} by Wh is` : `weighted r.m.s. of ${names} by Wh alone is`} ${figure(total)}${all ? '' : '; the other axes would add to it'}. For comparison, Directive 2002/44/EC sets for eight hours an action value of ${figure(action)} and a limit value of ${figure(limit)} of the vector sum of three axes.`,
    ],
  };
}

const common = (run: Run, rows: readonly LevelsRow[]): Pick<ExposureRow, 'run' | 'channels' | 'weightings'> => ({
  run,
  channels: rows.map(({ channel }) => channel.name),
  weightings: rows.map(weightingOf),
});
