import { butterworth, type FilterKind } from '../../signal/butterworth.ts';
import { paddingOf, zeroPhase } from '../../signal/filter.ts';
import { piecesOf } from '../../signal/stretch.ts';
import type { OptionForm } from '../../language/form.ts';
import { formatNumber } from '../../units/format.ts';
import { hertz, seconds } from '../../analysis/amounts.ts';
import { quantityIn, option, si, valueOf } from '../arguments.ts';
import { shortestStretch, whyUneven, withSamples } from '../../analysis/recordings/runs.ts';
import { together, type RunWarning } from '../../analysis/together.ts';
import type { Run } from '../../values/run.ts';
import { answer, type Answer, type Arguments } from '../verb.ts';
import { refuse, type Failure } from '../../result/result.ts';
import type { Watch } from '../../values/ports.ts';

export const zeroPhaseHelp =
  'A Butterworth filter as second-order sections, run forwards and then backwards over each unbroken stretch, so that nothing shifts in time. Twice through doubles the effective order and makes a corner −6 dB (half the amplitude), not −3 dB: `order 4` falls like order 8. Each end is continued by its own half turn, as is usual for this filter. Keep corners at least an octave outside of the band that is read (Butterworth 1930; Gustafsson 1996, IEEE Trans. Signal Processing 44).';

export const orderOption: OptionForm = {
  keyword: 'order',
  doc: 'Order of the filter, passed twice.',
  accepts: [{ type: 'integer', least: 1, most: 12 }],
  default: '4',
};

const usualOrder = 4;

/** Periods of the lowest corner that a stretch should hold, so that its ends are not most of it (engineering choice). */
const periodsWanted = 5;

/** All runs through a zero-phase filter. `at` is the operand that holds the corners, in Hz. */
export function filtered(
  given: Arguments,
  kind: FilterKind,
  corners: readonly number[],
  at: string,
  { cancelled, progress }: Watch,
): Answer {
  const runs = valueOf(given, 'runs', 'runs');
  const uneven = whyUneven(runs);
  if (uneven !== undefined) return uneven;
  const asked = quantityIn(option(given, 'order'));
  const order = asked === undefined ? usualOrder : si(asked);
  const step = `${kind} ${corners.map((corner) => formatNumber(corner, 6)).join('..')} Hz order ${order}, forwards and backwards`;
  const warnings: RunWarning[] = [];
  const done: Run[] = [];
  for (const run of runs.runs) {
    progress(done.length / runs.runs.length, `${kind} of ${run.label}`);
    const refusal = whyNoFilter(run, corners, at);
    if (refusal !== undefined) return refusal;
    const sections = butterworth(kind, order, corners, run.rate);
    const shortest = shortestStretch(run);
    const padding = paddingOf(sections);
    if (shortest.to - shortest.from <= padding) {
      return refuse(
        'filter.short',
        `The stretch of ${run.label} from ${seconds(shortest.start)} holds ${shortest.to - shortest.from} samples, and this filter needs more than ${padding}: trim it away, or take a lower order.`,
        'runs',
      );
    }
    const length = (shortest.to - shortest.from) / run.rate;
    if (kind !== 'lowpass' && length * corners[0] < periodsWanted) {
      warnings.push({
        code: 'filter.unsettled',
        of: run.label,
        message: `A stretch of ${run.label} lasts ${seconds(length)}, less than ${periodsWanted} periods of ${hertz(corners[0])}: much of it is the filter’s settling.`,
      });
    }
    done.push(
      withSamples(run, step, ({ samples, includesStatic: steady }) => {
        const into = new Float64Array(samples.length);
        const pieces = piecesOf(samples, run.stretches);
        piecesOf(into, run.stretches).forEach((piece, s) => zeroPhase(sections, pieces[s], piece, cancelled));
        return { samples: into, includesStatic: kind === 'lowpass' && steady };
      }),
    );
  }
  return answer({ ...runs, runs: done }, together(warnings));
}

function whyNoFilter(run: Run, corners: readonly number[], at: string): { ok: false; failure: Failure } | undefined {
  const wrong = corners.find((corner) => !(corner > 0 && corner < run.rate / 2));
  if (wrong !== undefined) {
    return refuse(
      'filter.corner',
      wrong > 0
        ? `A corner at ${hertz(wrong)} is not below half the rate of ${run.label}, which is ${hertz(run.rate / 2)}.`
        : 'A filter’s corner lies above 0 Hz.',
      at,
    );
  }
  if (corners.length === 2 && !(corners[0] < corners[1]))
    return refuse('range.backward', 'The pass band needs a lower and a higher corner, in this order.', at);
  return undefined;
}
