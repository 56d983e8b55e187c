import { cell, tableOf } from './cells.ts';
import { marksOf } from './runningMarks.ts';
import type { TableValue } from './table.ts';
import type { PeaksValue } from './peaks.ts';
import type { ProfileValue } from './profile.ts';
import type { RunningValue } from './running.ts';
import type { SpectrogramValue } from './spectrogram.ts';
import type { TransferValue } from './transfer.ts';

// The numbers behind the values of frequency and time.

/** The unit that all share, or none. */
const shared = (units: readonly { readonly symbol: string }[]): string =>
  units.every(({ symbol }) => symbol === units[0].symbol) ? (units[0]?.symbol ?? '') : '';

export function peaksTable({ rows }: PeaksValue): TableValue {
  return tableOf(
    'Peaks',
    [
      ['run', ''],
      ['channel', ''],
      ['frequency', 'Hz'],
      ['level', shared(rows.map(({ unit }) => unit))],
      ['prominence', 'dB'],
      ['width', 'Hz'],
      ['damping', ''],
    ],
    rows.map((row) => [
      row.run,
      row.channel,
      row.frequency,
      row.level,
      row.prominence,
      cell(row.width),
      cell(row.damping),
    ]),
  );
}

/** One row for each span after the other, so that no sample counts twice. */
export function runningTable({ entries, over }: RunningValue): TableValue {
  return tableOf(
    `R.m.s. over each ${over} s`,
    [
      ['run', ''],
      ['channel', ''],
      ['time', 's'],
      ['rms', shared(entries.map(({ channel }) => channel.unit))],
    ],
    entries.flatMap((entry) =>
      marksOf(entry, over).map((i) => [entry.run.label, entry.channel.name, entry.times[i], entry.rms[i]]),
    ),
  );
}

/** Time, frequency and density, one row a cell of the picture. */
export function spectrogramTable({ entries }: SpectrogramValue): TableValue {
  return tableOf(
    'Spectrogram',
    [
      ['run', ''],
      ['channel', ''],
      ['time', 's'],
      ['frequency', 'Hz'],
      ['density', shared(entries.map(({ unit }) => unit))],
    ],
    entries.flatMap(({ run, channel, times, bins, spacing, density }) =>
      Array.from(density, (value, at) => [
        run.label,
        channel.name,
        times[Math.floor(at / bins)],
        (at % bins) * spacing,
        value,
      ]),
    ),
  );
}

export function transferTable({ entries }: TransferValue): TableValue {
  const unit = shared(entries.map((entry) => entry.unit));
  return tableOf(
    'Frequency response',
    [
      ['run', ''],
      ['from', ''],
      ['to', ''],
      ['frequency', 'Hz'],
      ['h1', unit],
      ['h2', unit],
      ['phase', '°'],
      ['coherence', ''],
      ['random error', ''],
    ],
    entries.flatMap((entry) =>
      Array.from(entry.magnitude, (h1, k) => [
        entry.run.label,
        entry.from,
        entry.to,
        k * entry.spacing,
        h1,
        finiteCell(entry.magnitudeH2[k]),
        entry.phase[k],
        entry.coherence[k],
        finiteCell(entry.randomError[k]),
      ]),
    ),
  );
}

const finiteCell = (value: number): number | null => (Number.isFinite(value) ? value : null);

/** The breakpoints; or, where spectra were held against them, one row a spectrum. */
export function profileTable({ points, unit, rms, rmsUnit, against }: ProfileValue): TableValue {
  if (against === undefined) {
    return tableOf(
      `Profile, ${Number(rms.toPrecision(4))} ${rmsUnit.symbol} r.m.s.`,
      [
        ['frequency', 'Hz'],
        ['density', unit.symbol],
      ],
      points.map(({ frequency, density }) => [frequency, density]),
    );
  }
  return tableOf(
    `Against a profile of ${Number(rms.toPrecision(4))} ${rmsUnit.symbol} r.m.s., ${points[0].frequency} to ${points[points.length - 1].frequency} Hz`,
    [
      ['run', ''],
      ['channel', ''],
      ['rms', rmsUnit.symbol],
      ['against profile', 'dB'],
      ['highest', 'dB'],
      ['at', 'Hz'],
      ['lowest', 'dB'],
      ['at', 'Hz'],
      ['bins over 3 dB off', '%'],
    ],
    against.map((one) => [
      one.run.label,
      one.channel.name,
      one.rms,
      finiteCell(one.decibels),
      finiteCell(one.highest.decibels),
      one.highest.frequency,
      finiteCell(one.lowest.decibels),
      one.lowest.frequency,
      100 * one.outside,
    ]),
  );
}
