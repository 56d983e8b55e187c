import type { Plot } from './plots.ts';

/** A stretch of an axis, or of px of a picture. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** What a plot shows. */
export const shownIn = ({ left, width, valueAt }: Plot): Stretch => ({
  from: valueAt(left),
  to: valueAt(left + width),
});

/** A stretch so many times closer about a pixel of the plot that is to show it. @param stretch in s or Hz */
export function zoomed(plot: Plot, stretch: Stretch, times: number, pixel: number): Stretch {
  const { from, to } = pixels(plot, stretch);
  const about = from + ((pixel - plot.left) / plot.width) * (to - from);
  return values(plot, { from: about + (from - about) / times, to: about + (to - about) / times });
}

/** A stretch moved along with what is drawn by so many px to the right, as far as the axis goes; as long as before. */
export function panned(plot: Plot, stretch: Stretch, by: number, whole: Stretch): Stretch {
  const { from, to } = pixels(plot, stretch);
  const ends = pixels(plot, whole);
  const wanted = (by * (to - from)) / plot.width;
  const moved = Math.min(from - ends.from, Math.max(to - ends.to, wanted));
  return values(plot, { from: from - moved, to: to - moved });
}

/** In px, where an axis of logarithms is even, too. */
const pixels = ({ pixelOf }: Plot, { from, to }: Stretch): Stretch => ({ from: pixelOf(from), to: pixelOf(to) });
const values = ({ valueAt }: Plot, { from, to }: Stretch): Stretch => ({ from: valueAt(from), to: valueAt(to) });
