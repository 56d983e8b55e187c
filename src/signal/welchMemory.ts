import type { AnyPlan } from './anyLength.ts';
import type { Convolution } from './bluestein.ts';
import type { MemoryDraft } from './memoryDraft.ts';
import type { Stage } from './stage.ts';
import { rootOfUnity } from './twiddle.ts';

/** Segments that go through the kernel side by side. */
export const together = 4;

/** Samples taken into the kernel's memory at a time, at least. */
const chunkSamples = 1 << 13;

/** Where the kernel finds its plan, and this side what it writes and reads, in bytes. */
export interface WelchPlaces {
  readonly plan: number;
  readonly shape: number;
  /** Two sums for each point. */
  readonly lanes: number;
  readonly samples: number;
  /** Samples that fit at `samples`. */
  readonly room: number;
}

/** Drafts the memory of Welch's kernel; its plan is words in the order in which scripts/wasm/welch.ts reads them. */
export function welchPlaces(draft: MemoryDraft, { length, stages, columns, convolution }: AnyPlan): WelchPlaces {
  const shape = draft.room(length);
  const lanes = draft.room(2 * length);
  const room = Math.max(chunkSamples, together * length);
  const widest = stages.reduce((most, { radix }) => Math.max(most, radix), 0);
  const plan = draft.words([
    ...[length, shape, draft.room(4 * length), draft.room(4 * length), lanes],
    // Four vectors a pair of terms of an odd radix.
    ...[draft.room(4 * widest), stages.length, stagesIn(draft, stages)],
    ...(convolution === undefined ? [0, 0] : [columns, convolutionIn(draft, convolution)]),
  ]);
  return { plan, shape, lanes, samples: draft.room(room), room };
}

function convolutionIn(draft: MemoryDraft, of: Convolution): number {
  const { points, padded, chirpRe, chirpIm, kernelRe, kernelIm } = of;
  const [first, ...others] = padded.stages;
  const between = others.slice(0, -1);
  return draft.words([
    ...[points, padded.length, draft.numbers(pairs(chirpRe, chirpIm)), draft.numbers(pairs(kernelRe, kernelIm))],
    ...[draft.numbers(pairs(first.re, first.im)), between.length, stagesIn(draft, between)],
    ...[draft.room(4 * padded.length), draft.room(4 * padded.length)],
  ]);
}

/** Of each pass the radix, blocks, stride, and where its factors and its roots are. */
function stagesIn(draft: MemoryDraft, stages: readonly Stage[]): number {
  return draft.words(
    stages.flatMap(({ radix, blocks, stride, re, im }) => [
      ...[radix, blocks, stride],
      ...[draft.numbers(pairs(re, im)), draft.numbers(rootsOf(radix))],
    ]),
  );
}

/** Real and imaginary parts by turns. */
function pairs(re: Float64Array, im: Float64Array): Float64Array {
  const both = new Float64Array(2 * re.length);
  for (let i = 0; i < re.length; i++) {
    both[2 * i] = re[i];
    both[2 * i + 1] = im[i];
  }
  return both;
}

/** Cosine and sine of 2 pi t / n by turns, for t = 0 … n - 1. */
function rootsOf(n: number): Float64Array {
  const re = new Float64Array(n);
  const im = new Float64Array(n);
  for (let t = 0; t < n; t++) rootOfUnity(t, n, re, im, t);
  return pairs(
    re,
    im.map((value) => -value),
  );
}
