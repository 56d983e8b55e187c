import { limits } from './limits.ts';
import { noise } from './noise.ts';
import { section, type Part } from './section.ts';
import { markdownTable } from './table.ts';
import { errorOfPercentage, writtenExperiments, writtenRates, type WrittenStudy } from './throughVerbs.ts';

const refitScatter = 0.05;
const study = (each: number, scatter: readonly number[], areNamed = true): WrittenStudy => ({
  ...{ scatter, runs: 3, strata: 1, bands: 1, drift: 0 },
  refits: { each, scatter: refitScatter, areNamed },
});
const even = [0.02, 0.02];

/** The last is named in no sheet, so that it shows what the runs alone would say. */
const studies: readonly WrittenStudy[] = [
  ...[2, 3, 4, 6].map((each) => study(each, even)),
  study(4, [0.02, 0.08]),
  study(4, even, false),
];

/** Refits that the sheet names, from the recordings' text and the run sheet to the rows of `compare`. */
export const refitsPart: Part = async ({ seed, experiments }, checked) => {
  const random = noise(seed);
  const size = writtenExperiments(experiments);
  const rows: string[][] = [];
  for (const one of studies) {
    const { covered, halfWidth } = await writtenRates(one, size, random);
    const { each, areNamed } = one.refits!;
    const spreads = one.scatter.map((spread) => Number((100 * spread).toFixed(1))).join('/');
    const label = `${each} refits a side, 3 runs in each, ${spreads} %${areNamed ? '' : ', not named in the sheet'}`;
    if (areNamed) checked.atMost(`missed: ${label}`, 100 - covered, 100 - limits.coverage[0]);
    rows.push([label, covered.toFixed(1), `±${halfWidth.toFixed(1)}`]);
  }
  return section(
    'Refits, from recordings to rows',
    `Recordings and run sheets written out, refits of both conditions in turn, and compared by \`compare a with b over …\`: coverage of the change and the median half-width of its interval (nothing differs; scatter from refit to refit 5 %, from run to run as said; order known; ${size} experiments a line, error of a percentage near 95: ${errorOfPercentage(size)} points). The last line is what the same runs say where the sheet names no refits.`,
    markdownTable(['study', 'coverage', 'half-width'], rows),
  );
};
