import { answered, type Answer, type Refused } from '../../result/result.ts';
import { butterworth, type FilterKind } from '../../signal/butterworth.ts';
import { paddingOf, zeroPhase } from '../../signal/filter.ts';
import { longestOf, pieceByPiece } from '../../signal/stretch.ts';
import { dimensionOf, sameDimension } from '../../units/dimension.ts';
import { formatNumber } from '../../units/format.ts';
import type { Watch } from '../../values/ports.ts';
import type { Run, Signal } from '../../values/run.ts';
import type { RunsValue } from '../../values/runs.ts';
import { refuse, tell } from '../messages/recordings.ts';
import { longStretches } from '../recordings/longStretches.ts';
import { shortestStretch, withSamples } from '../recordings/runs.ts';
import { evenly } from '../recordings/uniformRate.ts';
import { together, type RunWarning } from '../together.ts';

/** A Butterworth filter that is passed forwards and backwards. */
export interface Filter {
  readonly kind: FilterKind;
  /** Hz; two for a band pass, the lower first. */
  readonly corners: readonly number[];
  /** Of one pass. */
  readonly order: number;
}

/** Periods of the lowest corner that a stretch should hold, so that its ends are not most of it (engineering choice). */
const periodsWanted = 5;

/**
 * All runs through a zero-phase filter, each unbroken stretch by itself. Refuses runs too uneven to be brought to a uniform rate, a corner that is not
 * below half a run's rate, and a run without a stretch that is longer than the filter's padding; leaves out short stretches
 * beside long ones, and warns of those and of stretches that are short all the same.
 */
export function filtered(runs: RunsValue, filter: Filter, { cancelled, progress }: Watch): Answer<RunsValue> {
  const { kind, corners, order } = filter;
  const even = evenly(runs, kind);
  if (!even.ok) return even;
  const step = `${kind} ${corners.map((corner) => formatNumber(corner, 6)).join('..')} Hz order ${order}, forwards and backwards`;
  const warnings: RunWarning[] = [];
  const done: Run[] = [];
  for (const run of even.value.runs) {
    progress(done.length / runs.runs.length, `${kind} of ${run.label}`);
    const refusal = whyNoCorner(run, filter);
    if (refusal !== undefined) return refusal;
    const sections = butterworth(kind, order, corners, run.rate);
    const least = paddingOf(sections) + 1;
    const wanted = Math.max(least, kind === 'lowpass' ? 0 : Math.ceil((periodsWanted / corners[0]) * run.rate));
    const long = longStretches(run, kind, { least, wanted });
    if (long === undefined) return tooShort(run, paddingOf(sections));
    warnings.push(...long.warnings, ...doubts(long.run, filter));
    done.push(
      withSamples(long.run, step, (signal) => ({
        samples: pieceByPiece(signal.samples, long.run.stretches, (piece, into) =>
          zeroPhase(sections, piece, into, cancelled),
        ),
        ...(kind === 'lowpass' ? {} : withoutBelow(signal, corners[0])),
      })),
    );
  }
  return answered({ ...runs, runs: done }, [...even.warnings, ...together(warnings)]);
}

/** What is known of a signal after a high-pass at a corner in Hz: a velocity or displacement means nothing below it. */
function withoutBelow(
  { unit: { dimension }, lowCut = 0, highpass = 0 }: Signal,
  corner: number,
): Pick<Signal, 'includesStatic' | 'lowCut' | 'highpass'> {
  const isIntegral = (['speed', 'length'] as const).some((name) => sameDimension(dimension, dimensionOf(name)));
  return {
    includesStatic: false,
    highpass: Math.max(highpass, corner),
    ...(isIntegral ? { lowCut: Math.max(lowCut, corner) } : {}),
  };
}

function whyNoCorner(run: Run, { kind, corners }: Filter): Refused | undefined {
  const corner = corners.find((one) => !(one < run.rate / 2));
  if (corner === undefined) return undefined;
  return refuse(
    'filter.corner',
    { run: run.label, corner, half: run.rate / 2 },
    kind === 'bandpass' ? 'band' : 'corner',
  );
}

const tooShort = ({ label, stretches }: Run, padding: number): Refused =>
  refuse('filter.short', { run: label, samples: longestOf(stretches), padding }, 'runs');

function doubts(run: Run, { kind, corners }: Filter): RunWarning[] {
  const { from, to } = shortestStretch(run);
  const length = (to - from) / run.rate;
  if (kind === 'lowpass' || length * corners[0] >= periodsWanted) return [];
  const code = 'filter.unsettled';
  const facts = { run: run.label, length, periods: periodsWanted, corner: corners[0] };
  return [{ code, of: run.label, tell: (others) => tell(code, { ...facts, others }) }];
}
