import type { Clock, Finding, TimeSpan } from '../recording.ts';
import { figure, percent } from '../refusal.ts';
import { settings } from '../settings.ts';
import type { StampClock } from './clock.ts';

type Lines = (row: number) => number | undefined;

/** What a careful reader would say of a clock: its rate, gaps, repeated and backward stamps, rounding and unevenness. */
export function clockFindings(
  clock: Clock,
  stamps: StampClock,
  stated: { readonly rate: number; readonly name: string } | undefined,
  lineOf: Lines,
): Finding[] {
  const findings = [
    clock.rateFrom === 'option'
      ? rateFinding(stamps.rate, { rate: clock.rate, name: 'the option rate' })
      : stated && rateFinding(stamps.rate, stated),
    gapFinding(clock, stamps, lineOf),
    deliveryFinding(stamps),
    jitterFinding(stamps),
    resetFinding(clock, stamps, lineOf),
  ];
  return findings.filter((finding): finding is Finding => finding !== undefined);
}

function rateFinding(measured: number, stated: { readonly rate: number; readonly name: string }): Finding | undefined {
  const off = measured / stated.rate - 1;
  if (Math.abs(off) <= settings.rate.note) return undefined;
  const warning = Math.abs(off) > settings.rate.warning;
  return {
    code: 'rate-differs',
    severity: warning ? 'warning' : 'note',
    message: `The stamps give ${figure(measured)} Hz, ${percent(Math.abs(off))} ${off > 0 ? 'above' : 'below'} the ${figure(stated.rate)} Hz of ${stated.name}; frequencies scale with the rate, so check which is right.`,
    value: off,
    threshold: warning ? settings.rate.warning : settings.rate.note,
  };
}

function gapFinding(clock: Clock, stamps: StampClock, lineOf: Lines): Finding | undefined {
  const gaps = gapsOf(clock);
  if (gaps.length === 0) return undefined;
  const samples = clock.stretches.reduce((sum, { from, to }) => sum + to - from, 0);
  const share = stamps.missing / (samples + stamps.missing);
  const [first] = gaps;
  const line = lineOf(first.row);
  const longest = gaps.reduce((most, { from, to }) => Math.max(most, to - from), 0);
  return {
    code: 'gap',
    severity: share > settings.missing ? 'warning' : 'note',
    message: `${gaps.length === 1 ? 'A gap leaves' : `${gaps.length} gaps leave`} out ${stamps.missing} samples (${percent(share)}), the ${gaps.length === 1 ? 'gap' : 'first'} at ${figure(first.from)} s${line === undefined ? '' : ` (line ${line})`}, the longest ${figure(longest)} s: no segment of a spectrum crosses a gap.`,
    value: share,
    threshold: settings.missing,
    places: gaps.map(({ from, to }) => ({ from, to })),
  };
}

/** The gaps between stretches, in s from the first sample, with the first row after each. */
export function gapsOf({ stretches, rate }: Clock): (TimeSpan & { readonly row: number })[] {
  const gaps: (TimeSpan & { row: number })[] = [];
  for (let s = 1; s < stretches.length; s++) {
    const before = stretches[s - 1];
    const from = before.start + (before.to - before.from - 1) / rate;
    const to = stretches[s].start;
    if (to - from > 1.25 / rate) gaps.push({ from, to, row: stretches[s].from });
  }
  return gaps;
}

function deliveryFinding({ delivery, repeated, backward, quantum, rate }: StampClock): Finding | undefined {
  if (delivery === 'bursts') {
    return {
      code: 'bursts',
      severity: 'warning',
      message: `${repeated} stamps repeat the one before and ${backward} run backwards, as where samples are delivered in bursts: samples are taken as even at ${figure(rate)} Hz, the slope of the stamps.`,
      value: repeated + backward,
    };
  }
  if (delivery === 'coarse') {
    return {
      code: 'coarse-stamps',
      severity: 'note',
      message: `Stamps are in steps of ${figure(quantum)} s that several samples share: samples are taken as even at ${figure(rate)} Hz.`,
      value: quantum,
    };
  }
  if (delivery === 'rounded') {
    return {
      code: 'rounded-stamps',
      severity: 'note',
      message: `Stamps are rounded to ${figure(quantum)} s, which explains all of their unevenness.`,
      value: quantum,
    };
  }
  if (repeated + backward === 0) return undefined;
  return {
    code: 'stamps-out-of-order',
    severity: 'note',
    message: `${repeated} stamps repeat the one before and ${backward} run backwards; the order of the rows was kept.`,
    value: repeated + backward,
  };
}

function jitterFinding({ jitter }: StampClock): Finding | undefined {
  const { note, resample, refuse } = settings.jitter;
  if (jitter <= note) return undefined;
  const severity = jitter > refuse ? 'fault' : jitter > resample ? 'warning' : 'note';
  const advice =
    jitter > refuse
      ? 'too uneven for a spectrum unless resample is written'
      : jitter > resample
        ? 'it is resampled to a uniform rate before a spectrum'
        : 'taken as even';
  return {
    code: 'uneven',
    severity,
    message: `Steps between samples vary by ${percent(jitter)} of their mean: ${advice}.`,
    value: jitter,
    threshold: jitter > refuse ? refuse : jitter > resample ? resample : note,
  };
}

function resetFinding(clock: Clock, { resets }: StampClock, lineOf: Lines): Finding | undefined {
  if (resets === 0) return undefined;
  const line = lineOf(clock.stretches[1]?.from ?? 0);
  return {
    code: 'clock-reset',
    severity: 'warning',
    message: `The clock jumps back ${resets === 1 ? 'once' : `${resets} times`}${line === undefined ? '' : ` (first break at line ${line})`}: what follows is taken as a stretch of its own, of which nobody knows how much later it began.`,
    value: resets,
  };
}
