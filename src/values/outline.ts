import type { Outline, Stretch } from '../readers/recording.ts';
import { changed } from './resultant.ts';
import { signalsOf, type Run } from './run.ts';

const made = new WeakMap<Run, Run>();

/**
 * A run as it is drawn: one that is too large for memory, and what a run was trimmed from, as runs of a lower rate whose
 * samples are the lowest and the highest of so many in turn.
 */
export function drawnRun(run: Run): Run {
  if (run.long === undefined && run.untrimmed?.long === undefined) return run;
  const before = made.get(run);
  if (before !== undefined) return before;
  const { untrimmed, ...own } = thinned(run);
  const found = untrimmed === undefined ? own : { ...own, untrimmed: drawnRun(untrimmed) };
  made.set(run, found);
  return found;
}

function thinned(run: Run): Run {
  const { long, ...rest } = run;
  const outline = signalsOf(run).find((signal) => signal.outline !== undefined)?.outline;
  if (long === undefined || outline === undefined) return run;
  const { stride } = outline;
  const spans = run.stretches.map((stretch) => spanIn(outline, stretch, long.from));
  const stretches: Stretch[] = [];
  let to = 0;
  for (const [s, { first, last, row }] of spans.entries()) {
    const from = to;
    to += 2 * (last - first);
    const { start, from: begin } = run.stretches[s];
    stretches.push({ from, to, start: start + (row - long.from - begin) / run.rate });
  }
  const channels = run.channels.map((channel) =>
    changed(channel, (signal) => ({ ...signal, samples: inTurn(signal.outline ?? outline, spans, to) })),
  );
  return { ...rest, rate: (2 * run.rate) / stride, stretches, channels };
}

/** Blocks of an outline from one up to but without another, and the recording's row at which the first begins. */
interface BlockSpan {
  readonly first: number;
  readonly last: number;
  readonly row: number;
}

/** The blocks that a stretch touches. @param shift row of the recording at which the run begins */
function spanIn({ stride, starts }: Outline, { from, to }: Stretch, shift: number): BlockSpan {
  const [begin, end] = [from + shift, to + shift];
  const piece = starts.findLast(({ row }) => row <= begin) ?? { block: 0, row: 0 };
  const passed = Math.floor((begin - piece.row) / stride);
  const last = piece.block + Math.ceil((end - piece.row) / stride);
  return { first: piece.block + passed, last, row: piece.row + passed * stride };
}

function inTurn({ low, high }: Outline, spans: readonly BlockSpan[], length: number): Float64Array {
  const samples = new Float64Array(length);
  let at = 0;
  for (const { first, last } of spans)
    for (let block = first; block < last; block++) {
      samples[at++] = low[block];
      samples[at++] = high[block];
    }
  return samples;
}
