import { evidencePages } from '../../../src/analysis/messages/evidencePages.ts';
import { planningPages } from '../../../src/analysis/messages/planningPages.ts';
import { noise, recordingOf, sine } from '../../verbs/notebook.ts';
import { exampleHost } from '../../verbs/exampleHost.ts';
import { describePages } from './pages.ts';

const runs = ['1', '2', '3', '4'];
const line = (level: number): string => recordingOf({ z: sine(10, level, 1) }, { seconds: 10, rate: 100 });

const texts = {
  ...Object.fromEntries(
    runs.flatMap((run, k) => [
      [`raw/line-${run}.csv`, line(1 + k / 100)],
      [`raw/copy-${run}.csv`, line(2)],
      [`raw/twin-${run}.csv`, line(1)],
      [`raw/silent-${run}.csv`, line(0)],
    ]),
  ),
};

/** Noise of about 0.3 g r.m.s. below 60 Hz around gravity, at 400 Hz. */
function ride(level: number, seed: number, change: (value: number) => number): string {
  const random = noise(seed);
  const recent = [0, 0, 0, 0];
  return recordingOf(
    {
      'z (g)': (_t, i) => {
        recent[i % 4] = random();
        return change(1 + (0.3 * level * recent.reduce((sum, one) => sum + one, 0)) / 2);
      },
    },
    { seconds: 40, rate: 400 },
  );
}
const inSteps =
  (step: number) =>
  (value: number): number =>
    Math.round(value / step) * step;

const rides = Object.fromEntries(
  runs.flatMap((run, k) => [
    [`raw/coarse/coarse-${run}.csv`, ride(1 + k / 30, 1 + k, inSteps(0.12))],
    [`raw/coarse/coarser-${run}.csv`, ride(0.9 + k / 30, 11 + k, inSteps(0.12))],
    [`raw/clipped/clipped-${run}.csv`, ride(1 + k / 30, 21 + k, (value) => inSteps(0.001)(Math.min(value, 1.95)))],
    [`raw/clipped/sound-${run}.csv`, ride(0.8 + k / 30, 31 + k, inSteps(0.001))],
  ]),
);

describePages('comparisons and claims', evidencePages, () => exampleHost({ ...texts, ...rides }));
describePages('plans', planningPages);
