import { noise } from './noise.ts';
import { section, type Part } from './section.ts';
import { markdownTable } from './table.ts';
import { errorOfPercentage, writtenExperiments, writtenRates, type WrittenStudy } from './throughVerbs.ts';

/** Interleaved orders of 3 and 5, and of 3 and 8 runs, the smaller side spread evenly. */
const orders = { '3 + 5': 'babbabab', '3 + 8': 'babbbabbbab' } as const;

type Sides = keyof typeof orders;

interface Case {
  readonly sides: Sides;
  readonly scatter: readonly [number, number];
  readonly wandering: 'nothing' | 'drift 1 % a run' | 'warm-up of 10 %';
  readonly isOrderUnknown?: boolean;
}

const spreads = [
  [0.03, 0.03],
  [0.02, 0.1],
  [0.15, 0.05],
  [0.1, 0.02],
] as const;

const cases: readonly Case[] = (Object.keys(orders) as Sides[]).flatMap((sides) => [
  ...spreads.map((scatter): Case => ({ sides, scatter, wandering: 'drift 1 % a run' })),
  { sides, scatter: spreads[0], wandering: 'warm-up of 10 %' },
  ...spreads.map((scatter): Case => ({ sides, scatter, wandering: 'nothing', isOrderUnknown: true })),
]);

function studyOf({ sides, scatter, wandering, isOrderUnknown = false }: Case): WrittenStudy {
  return {
    ...{ scatter, isOrderUnknown, runs: NaN, strata: 1, bands: 1, order: orders[sides] },
    drift: wandering === 'drift 1 % a run' ? 0.01 : 0,
    warmUp: wandering === 'warm-up of 10 %' ? 0.1 : 0,
  };
}

/** Unequal sides through the language: from the recordings' text and the run sheet to the rows of `compare`. */
export const unequalPart: Part = async ({ seed, experiments }, checked) => {
  const random = noise(seed);
  const size = writtenExperiments(experiments);
  const rows: string[][] = [];
  for (const one of cases) {
    const { sides, scatter, wandering, isOrderUnknown = false } = one;
    const { covered, halfWidth } = await writtenRates(studyOf(one), size, random);
    const percents = scatter.map((spread) => String(Number((100 * spread).toFixed(1)))).join('/');
    const order = isOrderUnknown ? 'not known' : 'known';
    checked.coverage(`${sides} runs, order ${order}, ${wandering}, spreads ${percents} %`, covered);
    rows.push([sides, `${percents} %`, order, wandering, covered.toFixed(1), `±${halfWidth.toFixed(1)}`]);
  }
  return section(
    'Unequal sides, from recordings to rows',
    `Recordings and run sheets written out and compared by \`compare a with b over …\`, 3 runs of A and 5 or 8 of B in the orders ${Object.values(
      orders,
    )
      .map((order) => order.toUpperCase())
      .join(
        ' and ',
      )}: coverage of the change and the median half-width of its interval (nothing differs; ${size} experiments a line, error of a percentage near 95: ${errorOfPercentage(size)} points). The warm-up fades by a factor of e every two runs.`,
    markdownTable(['runs of A + B', 'spreads of A/B', 'order', 'what wanders', 'coverage', 'half-width'], rows),
  );
};
