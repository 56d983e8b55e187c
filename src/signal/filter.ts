import type { Section } from './butterworth.ts';
import { Cancelled, type CancelCheck } from './cancel.ts';

/**
 * Samples by which `zeroPhase` continues a stretch at each end: scipy.signal.sosfiltfilt's default,
 * 3 x (2 sections + 1 - the fewer of vanishing b2 and vanishing a2). A stretch must be longer than that.
 *
 * @param sections of the filter
 */
export function paddingOf(sections: readonly Section[]): number {
  const zeros = sections.filter(({ b2 }) => b2 === 0).length;
  const poles = sections.filter(({ a2 }) => a2 === 0).length;
  return 3 * (2 * sections.length + 1 - Math.min(zeros, poles));
}

/**
 * Filters one unbroken stretch forwards and then backwards: no phase shift, the square of the filter's response,
 * twice its order. The stretch is continued at both ends by its own half turn (odd extension), and each pass
 * begins in the steady state of its first value (Gustafsson 1996, IEEE Trans. Signal Proc. 44, treats the choice).
 * The order of operations is scipy.signal.sosfiltfilt's, so that equal sections and starting states give equal bits.
 *
 * @param sections of the filter, in the order in which they are applied
 * @param samples the stretch; longer than `paddingOf(sections)`
 * @param into receives the result, of the same length; may be the samples themselves
 * @returns `into`, in the signal's unit
 * @throws RangeError for a stretch too short; Cancelled when `cancelled` says so
 */
export function zeroPhase(
  sections: readonly Section[],
  samples: Float64Array,
  into: Float64Array,
  cancelled?: CancelCheck,
): Float64Array {
  const count = samples.length;
  const edge = paddingOf(sections);
  if (count <= edge)
    throw new RangeError(`a stretch of ${count} samples is too short for this filter, which needs more than ${edge}`);
  const before = new Float64Array(edge);
  const after = new Float64Array(edge);
  for (let i = 0; i < edge; i++) {
    before[i] = 2 * samples[0] - samples[edge - i];
    after[i] = 2 * samples[count - 1] - samples[count - 2 - i];
  }
  if (into !== samples) into.set(samples);
  filterPass(sections, [before, into, after], false, before[0], cancelled);
  // What comes before the first sample is of no use on the way back.
  filterPass(sections, [after, into], true, after[edge - 1], cancelled);
  return into;
}

/** Filters in place through consecutive pieces, from the steady state of the value `first`; backwards if so asked. */
function filterPass(
  sections: readonly Section[],
  pieces: readonly Float64Array[],
  backwards: boolean,
  first: number,
  cancelled: CancelCheck | undefined,
): void {
  let scale = 1;
  const states = sections.map((section) => {
    const state = steadyState(section, scale);
    scale *= (section.b0 + section.b1 + section.b2) / (1 + section.a1 + section.a2);
    return state.map((value) => value * first);
  });
  for (const piece of pieces) {
    for (let s = 0; s < sections.length; s += 2) {
      for (let done = 0; done < piece.length; done += blockLength) {
        if (piece.length > blockLength && cancelled?.()) throw new Cancelled();
        const size = Math.min(blockLength, piece.length - done);
        const block = backwards
          ? piece.subarray(piece.length - done - size, piece.length - done)
          : piece.subarray(done, done + size);
        if (s + 1 < sections.length)
          twoSections(sections[s], sections[s + 1], states[s], states[s + 1], block, backwards);
        else oneSection(sections[s], states[s], block, backwards);
      }
    }
  }
}

const blockLength = 1 << 20;

/**
 * State of a section that has seen `level` for ever (transposed direct form II), times `level`: the solution of
 * [1 + a1, -1; a2, 1] z = [b1 - a1 b0; b2 - a2 b0], by elimination from the larger of the first column.
 */
function steadyState({ b0, b1, b2, a1, a2 }: Section, level: number): Float64Array {
  const top = b1 - a1 * b0;
  const bottom = b2 - a2 * b0;
  if (Math.abs(1 + a1) >= Math.abs(a2)) {
    const ratio = a2 / (1 + a1);
    const second = (bottom - ratio * top) / (1 + ratio);
    return Float64Array.of(level * ((top + second) / (1 + a1)), level * second);
  }
  const ratio = (1 + a1) / a2;
  const second = (top - ratio * bottom) / (-1 - ratio);
  return Float64Array.of(level * ((bottom - second) / a2), level * second);
}

function oneSection(
  { b0, b1, b2, a1, a2 }: Section,
  state: Float64Array,
  block: Float64Array,
  backwards: boolean,
): void {
  let z0 = state[0];
  let z1 = state[1];
  const step = backwards ? -1 : 1;
  for (let left = block.length, i = backwards ? left - 1 : 0; left > 0; left--, i += step) {
    const x = block[i];
    const y = b0 * x + z0;
    z0 = b1 * x - a1 * y + z1;
    z1 = b2 * x - a2 * y;
    block[i] = y;
  }
  state[0] = z0;
  state[1] = z1;
}

/** Two sections in one loop: while one waits for its recurrence the other can compute. */
function twoSections(
  p: Section,
  q: Section,
  ps: Float64Array,
  qs: Float64Array,
  block: Float64Array,
  backwards: boolean,
): void {
  const { b0, b1, b2, a1, a2 } = p;
  const { b0: d0, b1: d1, b2: d2, a1: c1, a2: c2 } = q;
  let z0 = ps[0];
  let z1 = ps[1];
  let u0 = qs[0];
  let u1 = qs[1];
  const step = backwards ? -1 : 1;
  for (let left = block.length, i = backwards ? left - 1 : 0; left > 0; left--, i += step) {
    const x = block[i];
    const y = b0 * x + z0;
    z0 = b1 * x - a1 * y + z1;
    z1 = b2 * x - a2 * y;
    const v = d0 * y + u0;
    u0 = d1 * y - c1 * v + u1;
    u1 = d2 * y - c2 * v;
    block[i] = v;
  }
  ps[0] = z0;
  ps[1] = z1;
  qs[0] = u0;
  qs[1] = u1;
}
