import { finite, list, unlessCommon, type Json } from './jsonNumbers.ts';
import { marksOf } from './runningMarks.ts';
import type { ExposureValue } from './exposure.ts';
import type { PeaksValue } from './peaks.ts';
import type { ProfileValue } from './profile.ts';
import type { RunningValue } from './running.ts';
import type { SpectrogramValue } from './spectrogram.ts';
import type { TransferValue } from './transfer.ts';

export function peaksJson({ rows }: PeaksValue): Json {
  const common = rows[0]?.unit.symbol;
  return {
    unit: common ?? '',
    rows: rows.map((row) => ({
      run: row.run,
      channel: row.channel,
      ...unlessCommon(common, row.unit.symbol),
      frequency_hz: finite(row.frequency),
      level: finite(row.level),
      prominence_db: finite(row.prominence),
      width_hz: finite(row.width),
      damping: finite(row.damping),
    })),
  };
}

/** The maxima, and the r.m.s. of each span after the other. */
export function runningJson({ entries, over }: RunningValue): Json {
  const common = entries[0]?.channel.unit.symbol;
  return {
    unit: common ?? '',
    over_s: over,
    rows: entries.map((entry) => {
      const marks = marksOf(entry, over);
      return {
        run: entry.run.label,
        channel: entry.channel.name,
        ...unlessCommon(common, entry.channel.unit.symbol),
        largest: finite(entry.largest),
        largest_at_s: finite(entry.largestAt),
        time_s: marks.map((i) => finite(entry.times[i])),
        rms: marks.map((i) => finite(entry.rms[i])),
      };
    }),
  };
}

export function spectrogramJson({ entries, window }: SpectrogramValue): Json {
  const common = entries[0]?.unit.symbol;
  return {
    unit: common ?? '',
    window: window.shape,
    window_s: window.length,
    runs: entries.map(({ run, channel, unit, spacing, bins, times, density, perColumn }) => ({
      run: run.label,
      channel: channel.name,
      ...unlessCommon(common, unit.symbol),
      spacing_hz: spacing,
      bins,
      segments_per_column: perColumn ?? 1,
      time_s: list(times),
      density: Array.from(times, (_, i) => list(density.subarray(i * bins, (i + 1) * bins))),
    })),
  };
}

export function transferJson({ entries, window, leastCoherence }: TransferValue): Json {
  const [first] = entries;
  return {
    unit: first?.unit.symbol ?? '',
    window: window.shape,
    window_s: window.length,
    least_coherence: leastCoherence,
    runs: entries.map((entry) => ({
      run: entry.run.label,
      from: entry.from,
      to: entry.to,
      ...unlessCommon(first.unit.symbol, entry.unit.symbol),
      spacing_hz: entry.spacing,
      averages: entry.averages,
      h1: list(entry.magnitude),
      h2: list(entry.magnitudeH2),
      phase_deg: list(entry.phase),
      coherence: list(entry.coherence),
      random_error: list(entry.randomError),
    })),
  };
}

export function profileJson({ unit, points, rms, rmsUnit, against }: ProfileValue): Json {
  return {
    unit: unit.symbol,
    rms: finite(rms),
    rms_unit: rmsUnit.symbol,
    points: points.map(({ frequency, density }) => ({ frequency_hz: frequency, density })),
    ...(against === undefined
      ? {}
      : {
          against: against.map((one) => ({
            run: one.run.label,
            channel: one.channel.name,
            rms: finite(one.rms),
            db: finite(one.decibels),
            highest_db: finite(one.highest.decibels),
            highest_at_hz: one.highest.frequency,
            lowest_db: finite(one.lowest.decibels),
            lowest_at_hz: one.lowest.frequency,
            over_3_db_off_percent: 100 * one.outside,
          })),
        }),
  };
}

export function exposureJson({ rows, cautions }: ExposureValue): Json {
  return {
    rows: rows.map((row) => ({
      run: row.run.label,
      channels: [...row.channels],
      weightings: [...row.weightings],
      body: row.body,
      total_m_s2: finite(row.total),
      daily_m_s2: finite(row.daily),
      comfort: [...row.comfort],
      action_m_s2: row.action,
      limit_m_s2: row.limit,
      sentences: [...row.sentences],
    })),
    cautions: [...cautions],
  };
}
