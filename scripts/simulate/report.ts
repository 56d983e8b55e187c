import { coverage, equivalenceRate, familyAlarms, oneRunCoverage, verdictRates, type Coverage, type Setting } from './experiments.ts';
import { Limits, limits } from './limits.ts';
import { meanAndVariance } from '../../src/statistics/summary.ts';
import { noise } from './noise.ts';
import { ridePool, type RideLevels } from './pool.ts';
import { markdownTable } from './table.ts';

/** How much is simulated. The same size and seed give the same report, to the digit. */
export interface Size {
  readonly seed: number;
  readonly rides: number;
  readonly experiments: number;
  /** Told as each part begins. */
  readonly progress?: (part: string) => void;
}

/** A section's Markdown, and the limits its figures broke. */
export interface Report {
  readonly markdown: string;
  /** Standard deviation of ln level of the rides as they are, before any scatter from run to run. */
  readonly ownScatter: number;
  readonly broken: readonly string[];
}

const methods = ['welch', 'pooled', 'paired', 'trend'] as const;
const show = (cell: Coverage | undefined): string =>
  cell ? `${cell.percent.toFixed(1)} (±${cell.halfWidth.toFixed(1)})` : '';
const percent = (value: number): string => value.toFixed(1);

/** Runs every experiment and writes the report. */
export function simulate(size: Size): Report {
  const checked = new Limits();
  size.progress?.(`${size.rides} rides`);
  const pool = ridePool(size.rides, noise(size.seed));
  const experiments = Object.entries({
    coverage: scatterPart,
    drift: driftPart,
    families: familyPart,
    claims: claimPart,
    equivalence: equivalencePart,
    'one run each': oneRunPart,
  });
  const parts = experiments.map(([name, part], k) => {
    size.progress?.(name);
    // A seed of its own for each part, so that a change in one leaves the others as they are.
    return part(pool, { ...size, seed: size.seed + 1000 * (k + 1) }, checked);
  });
  return { markdown: parts.join('\n\n') + '\n', ownScatter: spreadOf(pool), broken: checked.broken };
}

function spreadOf(pool: readonly RideLevels[]): number {
  return Math.sqrt(meanAndVariance(pool.map(({ primary }) => Math.log(primary))).variance);
}

function scatterPart(pool: readonly RideLevels[], { seed, experiments }: Size, checked: Limits): string {
  const random = noise(seed);
  const settings: [string, Setting][] = [0.03, 0.06].flatMap((scatter) =>
    [3, 4, 6, 10].map((runs): [string, Setting] => [`${100 * scatter} %`, { scatter, runs }]),
  );
  settings.push(
    ['6 %, heavy tails', { scatter: 0.06, runs: 4, heavyTails: true }],
    ['3 %, 8 % between pairs', { scatter: 0.03, runs: 4, pairScatter: 0.08 }],
  );
  const rows = settings.map(([label, setting]) => {
    const cells = coverage(pool, setting, methods, experiments, random);
    if (!setting.pairScatter)
      checked.coverage(`Welch, scatter ${label}, ${setting.runs} runs`, cells.welch?.percent ?? 0);
    else checked.coverage('paired, strong scatter between pairs', cells.paired?.percent ?? 0);
    return [label, String(setting.runs), ...methods.map((method) => show(cells[method]))];
  });
  return section(
    'Coverage of the 95 % interval',
    'How often the interval holds the true ratio, in percent; in brackets the median half-width, in percent of the ratio. ' +
      `A is B (the true ratio is 1), order ABBA BAAB, ${experiments} experiments a line.`,
    markdownTable(['scatter from run to run', 'runs each', 'Welch', 'pooled', 'paired', 'trend'], rows),
  );
}

function driftPart(pool: readonly RideLevels[], { seed, experiments }: Size, checked: Limits): string {
  const random = noise(seed);
  const rows = [0.01, 0.02].flatMap((drift) =>
    (['ABBA', 'AABB'] as const).flatMap((order) =>
      [3, 4, 6].map((runs) => {
        const cells = coverage(
          pool,
          { scatter: 0.03, runs, drift, order },
          order === 'ABBA' ? methods : ['welch'],
          experiments,
          random,
        );
        if (cells.trend) checked.coverage(`trend, drift ${100 * drift} % a run, ${runs} runs`, cells.trend.percent);
        return [`${100 * drift} %`, order, String(runs), ...methods.map((method) => show(cells[method]))];
      }),
    ),
  );
  return section(
    'Coverage with a drift',
    'As above with scatter 3 % and the level drifting by so much a run. All of A first lets the drift pass for a change; ' +
      'ABBA makes it harmless, and the trend method takes it out.',
    markdownTable(['drift a run', 'order', 'runs each', 'Welch', 'pooled', 'paired', 'trend'], rows),
  );
}

function familyPart(pool: readonly RideLevels[], { seed, experiments }: Size, checked: Limits): string {
  const random = noise(seed);
  const rows = [3, 4, 6].map((runs) => {
    const alarms = familyAlarms(pool, { scatter: 0.03, runs }, experiments, random);
    checked.atMost(`false alarms of nine bands, ${runs} runs`, alarms.holm, limits.familyAlarms);
    return [String(runs), percent(alarms.uncorrected), percent(alarms.holm)];
  });
  return section(
    'False alarms of nine bands',
    'Percent of experiments in which at least one of nine bands is called lower or higher though none is; scatter 3 %.',
    markdownTable(['runs each', 'by each p alone', "by Holm's adjusted p"], rows),
  );
}

function claimPart(pool: readonly RideLevels[], { seed, experiments }: Size, checked: Limits): string {
  const random = noise(seed);
  const rows = [0.03, 0.05].flatMap((scatter) =>
    [4, 6].flatMap((runs) =>
      [0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 1].map((ratio) => {
        const rates = verdictRates(pool, { scatter, runs, ratio }, 15, experiments, random);
        if (ratio === 0.85) {
          checked.atMost(
            `supported at the claimed value, scatter ${100 * scatter} %, ${runs} runs`,
            rates.supported,
            limits.wrongVerdicts,
          );
          checked.atMost(
            `contradicted at the claimed value, scatter ${100 * scatter} %, ${runs} runs`,
            rates.contradicted,
            limits.wrongVerdicts,
          );
        }
        const cells = [rates.supported, rates.contradicted, rates.notShown].map(percent);
        return [`${100 * scatter} %`, String(runs), `${Math.round(100 * (1 - ratio))} %`, ...cells];
      }),
    ),
  );
  return section(
    'Verdicts on "a reduction of at least 15 %"',
    'Percent of experiments with each verdict, by the true reduction. At exactly 15 % both verdicts would be wrong.',
    markdownTable(['scatter', 'runs each', 'true reduction', 'supported', 'contradicted', 'not shown'], rows),
  );
}

function equivalencePart(pool: readonly RideLevels[], { seed, experiments }: Size, checked: Limits): string {
  const random = noise(seed);
  const rows = [0.05, 0.1].flatMap((margin) =>
    [4, 6, 10].map((runs) => {
      const at = equivalenceRate(pool, { scatter: 0.03, runs, ratio: 1 + margin }, margin, experiments, random);
      const same = equivalenceRate(pool, { scatter: 0.03, runs }, margin, experiments, random);
      checked.atMost(`called equivalent at the margin of ${100 * margin} %, ${runs} runs`, at, limits.falseEquivalence);
      return [`${100 * margin} %`, String(runs), percent(at), percent(same)];
    }),
  );
  return section(
    'Called equivalent',
    'Percent of experiments in which A and B are called equivalent: when they differ by exactly the margin (wrongly), and when they are the same. Scatter 3 %.',
    markdownTable(['margin', 'runs each', 'differ by the margin', 'the same'], rows),
  );
}

function oneRunPart(pool: readonly RideLevels[], { seed, experiments }: Size): string {
  const random = noise(seed);
  const rows = [0, 0.03, 0.06, 0.12].map((scatter) => [
    `${100 * scatter} %`,
    percent(oneRunCoverage(pool, scatter, experiments, random)),
  ]);
  return section(
    'One run each',
    'How often the interval from blocks of 5 s, nominally 95 %, holds the true ratio of the conditions. It is wide because bumps and rough ' +
      'stretches that both rides share count as noise, and it knows nothing of the scatter between runs, so what it holds is chance. ' +
      'That is why it is labelled as within these two runs only, and why no verdict is drawn from it.',
    markdownTable(['scatter from run to run', 'coverage'], rows),
  );
}

const section = (title: string, text: string, table: string): string => `## ${title}\n\n${text}\n\n${table}`;
