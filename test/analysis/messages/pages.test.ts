import { evidencePages } from '../../../src/analysis/messages/evidencePages.ts';
import { planningPages } from '../../../src/analysis/messages/planningPages.ts';
import { recordingOf, sine } from '../../verbs/notebook.ts';
import { exampleHost } from '../../verbs/exampleHost.ts';
import { describePages } from './pages.ts';

const runs = ['1', '2', '3', '4'];
const sheet = (header: string, foam: (k: number) => string, gel: (k: number) => string): string =>
  [
    `file,condition,${header}`,
    ...runs.map((run, k) => `brick-foam-${run}.csv.gz,foam,${foam(k)}`),
    ...runs.map((run, k) => `brick-gel-${run}.csv.gz,gel,${gel(k)}`),
  ].join('\n') + '\n';

const line = (level: number): string => recordingOf({ z: sine(10, level, 1) }, { seconds: 10, rate: 100 });

const texts = {
  // All of foam in the morning, all of gel in the afternoon, faster, heavier and with harder tyres.
  'raw/other-day.csv': sheet(
    'order,speed (m/s),mass (kg),load (kg),pressure (bar)',
    (k) => `${k + 1},1.20,75,5.0,5.0`,
    (k) => `${k + 5},1.26,80,5.3,5.3`,
  ),
  'raw/warming.csv': sheet(
    'order',
    (k) => String([1, 2, 4, 5][k]),
    (k) => String([3, 6, 7, 8][k]),
  ),
  'raw/strata.csv': sheet(
    'thin,even,few,speed (m/s)',
    (k) => `${k === 0 ? 'p' : 'q'},${k < 2 ? 'p' : 'q'},${k < 3 ? 'yes' : 'no'},${1.2 + 0.01 * k}`,
    (k) => `${k === 0 ? 'p' : 'q'},${k < 2 ? 'p' : 'q'},${k < 3 ? 'yes' : 'no'},${1.205 + 0.01 * k}`,
  ),
  'raw/paces.csv': sheet(
    'speed (paces)',
    () => '2',
    () => '2',
  ),
  ...Object.fromEntries(
    runs.flatMap((run, k) => [
      [`raw/line-${run}.csv`, line(1 + k / 100)],
      [`raw/copy-${run}.csv`, line(2)],
      [`raw/twin-${run}.csv`, line(1)],
      [`raw/silent-${run}.csv`, line(0)],
    ]),
  ),
};

describePages('comparisons and claims', evidencePages, () => exampleHost(texts));
describePages('plans', planningPages);
