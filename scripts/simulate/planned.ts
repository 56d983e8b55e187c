import { limits } from './limits.ts';
import { noise } from './noise.ts';
import { section, type Part } from './section.ts';
import { markdownTable } from './table.ts';
import { errorOfPercentage, writtenExperiments, writtenRates, type WrittenStudy } from './throughVerbs.ts';

/** A study, what is told of it, and whether its own intervals have to be within the limits. */
interface Case {
  readonly label: string;
  readonly study: WrittenStudy;
  readonly isPromised: boolean;
}

const even = [0.03, 0.03];
const two = { scatter: even, strata: 1, bands: 1, drift: 0 };

const fitted = 'plan (plan "Less?" adjust speed)';

/** Speeds that scatter by 4 %, levels that go with them, and what is taken out. */
function speedCase(runs: number, taken: string, asks: string | undefined, apart = 0): Case {
  const speeds = { scatter: 0.04, apart, ofPower: asks?.includes('±') === true ? 0.3 : 0 };
  return {
    label: `${runs} runs each, speeds ${apart === 0 ? 'alike' : `${100 * apart} % apart`}, ${taken}`,
    study: { ...two, runs, speeds, ...(asks === undefined ? {} : { asks }) },
    isPromised: asks !== undefined,
  };
}

const stated = (power: string): string => `adjust speed exponent ${power}`;

const speedCases: readonly Case[] = [
  ...[3, 4, 6].map((runs) => speedCase(runs, 'exponent 1 stated', stated('1'))),
  speedCase(4, 'exponent 1 ± 0.3 stated', stated('1 ± 0.3')),
  ...[4, 6].map((runs) => speedCase(runs, 'slope fitted as planned', fitted)),
  speedCase(4, 'exponent 1 stated', stated('1'), 0.04),
  speedCase(4, 'exponent 1 ± 0.3 stated', stated('1 ± 0.3'), 0.04),
  speedCase(4, 'slope fitted as planned', fitted, 0.04),
  speedCase(4, 'nothing taken out', undefined),
];

/** Days that scatter by 8 %, and in the change by so much. */
function dayCase(days: number, runs: number, ofChange: number, areStrata: boolean): Case {
  const wanders = ofChange === 0 ? 'the change alike on all days' : `the change scatters by ${100 * ofChange} % a day`;
  return {
    label: `${days} days, ${runs} runs each on every one, ${areStrata ? 'days as strata' : 'days named in the sheet'}, ${wanders}`,
    study: { ...two, runs, strata: days, days: { scatter: 0.08, ofChange, areStrata } },
    isPromised: areStrata ? days > 2 || ofChange === 0 : ofChange === 0,
  };
}

const dayCases: readonly Case[] = [
  ...[2, 3].map((days) => dayCase(days, 2, 0, false)),
  dayCase(2, 4, 0, false),
  ...[3, 4, 6].map((days) => dayCase(days, 2, 0.05, true)),
  dayCase(3, 4, 0.05, true),
  dayCase(2, 2, 0, true),
  dayCase(3, 2, 0.05, false),
];

const pooledCases: readonly Case[] = [
  [3, 4, 6].flatMap((runs) => [
    pooledCase(runs, [0.03, 0.03, 0.03], 'each with the first', 'plan (plan "Less?" pooled)'),
    pooledCase(runs, [0.03, 0.03, 0.03], 'all pairs', 'all-pairs plan (plan "Less?" pooled)'),
  ]),
  pooledCase(4, [0.02, 0.1, 0.05], 'each with the first', 'plan (plan "Less?" pooled)'),
].flat();

function pooledCase(runs: number, scatter: readonly number[], which: string, asks: string): Case {
  const spreads = scatter.map((one) => Number((100 * one).toFixed(1)));
  return {
    label: `3 conditions, ${runs} runs each, ${spreads.join('/')} %, ${which}`,
    study: { scatter, runs, strata: 1, bands: 1, drift: 0, asks },
    isPromised: new Set(scatter).size === 1,
  };
}

/** Coverage of the first change by itself, or of all changes of a family, through the language. */
const partOf =
  (title: string, text: string, cases: readonly Case[], whole: 'one' | 'all'): Part =>
  async ({ seed, experiments }, checked) => {
    const random = noise(seed);
    const size = writtenExperiments(experiments);
    const rows: string[][] = [];
    for (const { label, study, isPromised } of cases) {
      const { covered, misses, halfWidth } = await writtenRates(study, size, random);
      if (isPromised && whole === 'one') checked.coverage(label, covered);
      if (isPromised && whole === 'all') checked.atMost(`any miss: ${label}`, misses, limits.familyMisses);
      rows.push([label, (whole === 'one' ? covered : misses).toFixed(1), `±${halfWidth.toFixed(1)}`]);
    }
    const sized = `seed ${seed}, ${size} experiments a line, error of a percentage near 95: ${errorOfPercentage(size)} points`;
    return section(
      title,
      `Recordings and run sheets written out and compared by \`compare\`: ${text} (nothing differs; order known; ${sized}).`,
      markdownTable(['study', whole === 'one' ? 'coverage' : 'any miss', 'half-width'], rows),
    );
  };

export const speedsPart: Part = partOf(
  'Speeds taken out, from recordings to rows',
  `coverage of the change and the median half-width of its interval where levels go with the speed by a power of 1 (that scatters by 0.3 from study to study where ± 0.3 is stated), the runs’ speeds scatter by 4 %, and levels from run to run by ${100 * even[0]} % besides; studies whose speeds do not overlap are refused a fitted slope and drawn anew. The last line takes nothing out, and promises nothing`,
  speedCases,
  'one',
);

export const daysPart: Part = partOf(
  'Days, from recordings to rows',
  `coverage of the change and the median half-width of its interval where days scatter by 8 %, and runs within a day by ${100 * even[0]} %. Strata of 3 days and more speak of other days. The last line names days of which the change differs, and asks for no strata: it speaks of these days alone`,
  dayCases,
  'one',
);

export const pooledPart: Part = partOf(
  'One scatter for all, as planned, from recordings to rows',
  'percent of experiments in which any printed interval misses (Dunnett, of all pairs Tukey), and the median half-width of the first. The last line pools scatters that are unlike, and promises nothing',
  pooledCases,
  'all',
);
