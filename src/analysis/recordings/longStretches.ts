import { piecesOf, type Stretch } from '../../signal/stretch.ts';
import type { Run } from '../../values/run.ts';
import { tell } from '../messages/recordings.ts';
import type { RunWarning } from '../together.ts';
import { ofPieces } from './uniformRate.ts';

/** Share of a run's samples that its long stretches must hold for the others to be left out (engineering choice). */
const bulk = 0.9;

/** What a step needs of an unbroken stretch, in samples. */
export interface Needs {
  /** With fewer there is nothing that it could do. */
  readonly least: number;
  /** With fewer its result is mostly that of the stretch's ends. */
  readonly wanted: number;
}

export interface LongStretches {
  readonly run: Run;
  /** What was left out, where something was. */
  readonly warnings: readonly RunWarning[];
}

/**
 * A run at a uniform rate as a step takes it that works on each unbroken stretch by itself: without the stretches that
 * are too short for it. A few samples between two losses must not refuse the run, nor may they pass for signal where
 * they are the step's own run-in. Where so much lies in short stretches that little would be left, those that the step
 * can take at all stay, and its own warning says what they are worth.
 * @param step as the message names it
 * @returns undefined where no stretch holds the least that the step needs
 */
export function longStretches(run: Run, step: string, { least, wanted }: Needs): LongStretches | undefined {
  const { stretches, rate } = run;
  const long = stretches.filter((one) => sizeOf(one) >= wanted);
  const needed = samplesIn(long) >= bulk * samplesIn(stretches) ? wanted : least;
  const kept = stretches.filter((one) => sizeOf(one) >= needed);
  if (kept.length === 0) return undefined;
  if (kept.length === stretches.length) return { run, warnings: [] };
  const starts = kept.map(({ start }) => start);
  const shorter = { ...run, start: starts[0], ...ofPieces(run, starts, ({ samples }) => piecesOf(samples, kept)) };
  const code = 'stretch.left-out';
  const all = samplesIn(stretches);
  const facts = {
    step,
    run: run.label,
    stretches: stretches.length - kept.length,
    samples: all - samplesIn(kept),
    all,
    length: needed / rate,
  };
  const warning: RunWarning = {
    code,
    of: run.label,
    sameFor: step,
    tell: (others) => tell(code, { ...facts, others }),
  };
  return { run: shorter, warnings: [warning] };
}

const sizeOf = ({ from, to }: Stretch): number => to - from;

const samplesIn = (stretches: readonly Stretch[]): number => stretches.reduce((sum, one) => sum + sizeOf(one), 0);
