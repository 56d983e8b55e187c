import { powerOf, runsForEquivalence } from '../../src/statistics/repeats.ts';
import {
  coverage,
  densityMisses,
  equivalenceRate,
  familyRates,
  verdictRates,
  type Coverage,
  type Setting,
} from './experiments.ts';
import { Limits, limits } from './limits.ts';
import { noise } from './noise.ts';
import { ridePool } from './pool.ts';
import { interactionPart } from './interaction.ts';
import { inStrata, severalConditions, severalRates, type SeveralStudy } from './several.ts';
import { section, type Amount, type Part } from './section.ts';
import { markdownTable } from './table.ts';
import { daysPart, pooledPart, speedsPart } from './planned.ts';
import { refitsPart } from './refits.ts';
import { unequalPart } from './unequal.ts';
import { writtenPart } from './written.ts';

/** As `Amount`, and which parts. */
interface Size extends Amount {
  /** Told as each part begins. */
  readonly progress?: (part: string) => void;
  /** One part alone, by its name; default all. */
  readonly only?: string | undefined;
}

const show = ({ percent: held, halfWidth }: Coverage): string => `${held.toFixed(1)} (±${halfWidth.toFixed(1)})`;
const percent = (value: number): string => value.toFixed(1);

/** Runs every experiment, or one part of them, and gives the sections of the report, each with the limits that its figures broke. */
export async function simulate(size: Size): Promise<string[]> {
  const experiments: Readonly<Record<string, Part>> = {
    coverage: coveragePart,
    drifts: driftPart,
    families: familyPart,
    claims: claimPart,
    sameness: equivalencePart,
    densities: densityPart,
    power: powerPart,
    rides: ridePart,
    several: severalPart,
    written: writtenPart,
    refits: refitsPart,
    unequal: unequalPart,
    speeds: speedsPart,
    days: daysPart,
    pooled: pooledPart,
    interaction: interactionPart,
  };
  const sections: string[] = [];
  for (const [k, [name, part]] of Object.entries(experiments).entries()) {
    if (size.only !== undefined && size.only !== name) continue;
    size.progress?.(name);
    const checked = new Limits();
    // A seed of its own for each part, so that a change in one leaves the others as they are.
    const made = await part({ ...size, seed: size.seed + 1000 * (k + 1) }, checked);
    sections.push(`${made}\n\n${outside(checked)}`);
  }
  return sections;
}

const outside = ({ broken }: Limits): string =>
  broken.length === 0
    ? 'All within the limits.'
    : `Outside the limits:\n\n${broken.map((sentence) => `- ${sentence}`).join('\n')}`;

/** Several conditions and strata. */
const severalPart: Part = ({ seed, experiments }, checked) => {
  const random = noise(seed);
  const conditions: readonly [label: string, study: SeveralStudy][] = [3, 4, 6].flatMap((runs) =>
    (
      [
        [0.03, 0.03, 0.03],
        [0.02, 0.1, 0.05],
      ] as const
    ).map((scatter): [string, SeveralStudy] => [
      `3 conditions, ${runs} runs each, 3 bands, ${scatter.map((one) => 100 * one).join('/')} %, drift 1 % a run`,
      severalConditions(runs, scatter, 0.01, 3),
    ]),
  );
  const strata: readonly [label: string, study: SeveralStudy][] = [2, 4].flatMap((runs) =>
    [2, 3].map((count): [string, SeveralStudy] => [
      `${count} strata, ${runs} runs each in every one, 3/10 %, drift 1 % a run`,
      inStrata(count, runs, [0.03, 0.1], 0.01),
    ]),
  );
  const rows = [...conditions, ...strata].map(([label, study]) => {
    const { covered, misses, missesWithin } = severalRates(study, experiments, random);
    checked.atMost(`any miss: ${label}`, misses, limits.familyMisses);
    const hasStrata = study.changes.some(({ stratum }) => stratum !== undefined);
    if (hasStrata) checked.atMost(`any miss within strata: ${label}`, missesWithin, limits.familyMisses);
    return [label, percent(covered), percent(misses), hasStrata ? percent(missesWithin) : '–'];
  });
  return section(
    'Several conditions and strata',
    `Coverage of one change by itself, percent of experiments in which any change of the family misses, and in which any within a stratum does (nothing differs; order known; ${experiments} experiments a line).`,
    markdownTable(['study', 'one change', 'any miss', 'any miss within strata'], rows),
  );
};

const coveragePart: Part = ({ seed, experiments }, checked) => {
  const random = noise(seed);
  const spreads: readonly (readonly [number, number])[] = [
    [0.03, 0.03],
    [0.02, 0.1],
    [0.15, 0.02],
    [0.02, 0.15],
  ];
  const rows = spreads.flatMap((scatter) =>
    [3, 4, 5, 6, 8].map((runs) => {
      const [known, unknown] = (['order', 'nothing'] as const).map((told) =>
        coverage({ runs, scatter, known: told }, experiments, random),
      );
      const label = scatter.map((one) => String(100 * one)).join('/');
      checked.coverage(`order known, spreads ${label} %, ${runs} runs`, known.percent);
      checked.coverage(`order not known, spreads ${label} %, ${runs} runs`, unknown.percent);
      return [`${label} %`, String(runs), show(known), show(unknown)];
    }),
  );
  return section(
    'Coverage of the 95 % interval',
    `How often the printed interval holds the true ratio, in percent; in brackets the median half-width, in percent of the ratio. No drift; ${experiments} experiments a line.`,
    markdownTable(['spreads of A/B', 'runs each', 'order known', 'order not known'], rows),
  );
};

const driftPart: Part = ({ seed, experiments }, checked) => {
  const random = noise(seed);
  const kinds: readonly [label: string, setting: Partial<Setting>, isDefault: boolean][] = [
    ['drift 2 % a run', { drift: 0.02 }, true],
    ['hump of 10 %', { hump: 0.1 }, false],
    ['8 % between pairs, named', { pairScatter: 0.08, known: 'pairs' }, true],
    ['heavy tails', { heavyTails: true }, false],
  ];
  const rows = kinds.flatMap(([label, setting, isDefault]) =>
    [3, 4, 6, 8].map((runs) => {
      const of = (ratio: number): Coverage =>
        coverage({ runs, scatter: [0.03, 0.03], ratio, ...setting }, experiments, random);
      const [same, lower] = [of(1), of(0.92)];
      if (isDefault) checked.coverage(`${label}, ${runs} runs`, same.percent);
      return [label, String(runs), show(same), percent(lower.shown)];
    }),
  );
  return section(
    'What wanders between the runs',
    'Order known, scatter 3 %: coverage as above, and percent of experiments that show a reduction of 8 %. A hump under a straight drift (below 6 runs) makes the interval wide and its coverage high.',
    markdownTable(['wandering', 'runs each', 'coverage', 'shows −8 %'], rows),
  );
};

const familyPart: Part = ({ seed, experiments }, checked) => {
  const random = noise(seed);
  const rows = [2, 9, 30].flatMap((bands) =>
    [0, 0.5, 0.9].flatMap((common) =>
      [3, 4, 6].map((runs) => {
        const setting: Setting = { runs, scatter: [0.03, 0.03], ratio: 0.9 };
        const { misses, shown } = familyRates(setting, { bands, common }, Math.ceil(experiments / 4), random);
        checked.atMost(`${bands} bands, ${common} common, ${runs} runs`, misses, limits.familyMisses);
        return [String(bands), String(common), String(runs), percent(misses), percent(shown)];
      }),
    ),
  );
  return section(
    'Several bands together',
    'Percent of experiments in which the interval of any band misses its true change of −10 %, and percent of bands that are shown to be lower; scatter 3 %.',
    markdownTable(['bands', 'common variance', 'runs each', 'any miss', 'shown per band'], rows),
  );
};

const claimPart: Part = ({ seed, experiments }, checked) => {
  const random = noise(seed);
  const rows = [0.03, 0.05].flatMap((scatter) =>
    [4, 6].flatMap((runs) =>
      [0.7, 0.8, 0.85, 0.9, 1].map((ratio) => {
        const rates = verdictRates({ scatter: [scatter, scatter], runs, ratio }, 15, experiments, random);
        if (ratio === 0.85) {
          const at = `at the claimed value, scatter ${100 * scatter} %, ${runs} runs`;
          checked.atMost(`supported ${at}`, rates.supported, limits.wrongVerdicts);
          checked.atMost(`contradicted ${at}`, rates.contradicted, limits.wrongVerdicts);
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
};

const equivalencePart: Part = ({ seed, experiments }, checked) => {
  const random = noise(seed);
  const rows = [0.05, 0.1].flatMap((margin) =>
    [4, 6, 8, 10].map((runs) => {
      const of = (ratio: number, bands: number, confidence: number): number => {
        const setting: Setting = { runs, scatter: [0.03, 0.03], ratio, known: 'nothing' };
        return equivalenceRate(setting, margin, { bands, confidence }, Math.ceil(experiments / bands), random);
      };
      const [at, ten, same, usual] = [of(1 + margin, 1, 0.95), of(1 + margin, 10, 0.95), of(1, 1, 0.95), of(1, 1, 0.9)];
      checked.atMost(`the same at the margin of ${100 * margin} %, ${runs} runs`, at, limits.falseEquivalence);
      checked.atMost(`any of ten at the margin of ${100 * margin} %, ${runs} runs`, ten, limits.falseEquivalence);
      return [`${100 * margin} %`, String(runs), ...[at, ten, same, usual].map(percent)];
    }),
  );
  return section(
    'Called the same within a margin',
    'Percent of experiments: when they differ by exactly the margin (wrongly), any of ten such bands, and when they are the same, at 95 and at 90 % confidence. Order not known, scatter 3 %.',
    markdownTable(['margin', 'runs each', 'at the margin', 'any of ten', 'the same, 95 %', 'the same, 90 %'], rows),
  );
};

const densityPart: Part = ({ seed, experiments }, checked) => {
  const random = noise(seed);
  const rows = [4, 6, 8].map((runs) => {
    const found = densityMisses({ runs, bins: 297, averages: 80 }, Math.ceil(experiments / 10), random);
    checked.atMost(`densities, ${runs} runs`, found.misses, limits.densityMisses);
    return [String(runs), percent(found.misses), `±${found.halfWidth.toFixed(0)} %`];
  });
  return section(
    'The change bin by bin',
    'Percent of spectra of 297 bins (80 averages, runs scatter by 3 %) in which the interval for all bins misses anywhere, and its half-width in amplitude.',
    markdownTable(['runs each', 'any miss', 'half-width'], rows),
  );
};

const powerPart: Part = ({ seed, experiments }, checked) => {
  const random = noise(seed);
  const rows = [3, 4, 5, 6].flatMap((runs) =>
    (['order', 'nothing'] as const).map((known) => {
      const { shown } = coverage({ runs, scatter: [0.03, 0.03], ratio: 0.92, known }, experiments, random);
      const order = known === 'order' ? 'interleaved' : 'unknown';
      const reckoned = 100 * powerOf(Math.log(0.92), runs, { spread: 0.03, order });
      checked.atMost(`power, ${known}, ${runs} runs`, Math.abs(shown - reckoned), limits.power);
      return [known === 'order' ? 'known' : 'not known', String(runs), percent(reckoned), percent(shown)];
    }),
  );
  const needed = runsForEquivalence(0.05, { spread: 0.03 })?.runs ?? 0;
  return section(
    'Power that `repeats` promises, and that `compare` gives',
    `Percent that show a reduction of 8 % when runs scatter by 3 %. To be shown the same within ±5 %, ${needed} runs of each are promised.`,
    markdownTable(['order', 'runs each', 'promised', 'found'], rows),
  );
};

const ridePart: Part = ({ seed, experiments, rides }, checked) => {
  const random = noise(seed);
  const pool = ridePool(rides, random);
  const rows = [3, 4, 6].map((runs) => {
    const found = coverage({ runs, scatter: [0.03, 0.03] }, experiments, random, pool);
    checked.coverage(`made-up rides, ${runs} runs`, found.percent);
    return [String(runs), show(found)];
  });
  return section(
    'Made-up rides',
    `${rides} rides of 85 s at 350 Hz over one road: noise through two resonances, a road that is rough in places, bumps met by every ride, potholes met by chance, a slow modulation of each ride’s own. Their levels (10 to 50 Hz) come from the tool’s own spectrum, and scatter by 3 % from run to run besides.`,
    markdownTable(['runs each', 'coverage'], rows),
  );
};
