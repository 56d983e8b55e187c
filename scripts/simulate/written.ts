import { limits } from './limits.ts';
import { noise } from './noise.ts';
import { section, type Part } from './section.ts';
import { markdownTable } from './table.ts';
import { errorOfPercentage, writtenExperiments, writtenRates, type WrittenStudy } from './throughVerbs.ts';

const even = [0.03, 0.03, 0.03];
const uneven = [0.02, 0.1, 0.05];
const drift = 0.01;

/** Three conditions; two conditions in strata; three conditions in strata. */
const studies: readonly WrittenStudy[] = [
  ...[3, 4, 6].flatMap((runs) => [even, uneven].map((scatter) => ({ scatter, runs, strata: 1, bands: 3, drift }))),
  ...[2, 4].flatMap((runs) => [2, 3].map((strata) => ({ scatter: [0.03, 0.1], runs, strata, bands: 1, drift }))),
  ...[2, 4].flatMap((runs) => [2, 3].map((strata) => ({ scatter: uneven, runs, strata, bands: 2, drift }))),
];

/** Several conditions and strata through the language: from the recordings' text and the run sheet to the rows of `compare`. */
export const writtenPart: Part = async ({ seed, experiments }, checked) => {
  const random = noise(seed);
  const size = writtenExperiments(experiments);
  const rows: string[][] = [];
  for (const study of studies) {
    const { covered, misses, missesWithin, halfWidth } = await writtenRates(study, size, random);
    const label = labelOf(study);
    checked.atMost(`any miss: ${label}`, misses, limits.familyMisses);
    if (!Number.isNaN(missesWithin))
      checked.atMost(`any miss within strata: ${label}`, missesWithin, limits.familyMisses);
    rows.push([
      label,
      covered.toFixed(1),
      `±${halfWidth.toFixed(1)}`,
      misses.toFixed(1),
      Number.isNaN(missesWithin) ? '–' : missesWithin.toFixed(1),
    ]);
  }
  return section(
    'Several conditions and strata, from recordings to rows',
    `Recordings and run sheets written out, loaded by the sheet, and compared by \`compare a with b, c within site over …\`: coverage of the first change by itself, the median half-width of its interval as it is printed (with all others of its family), and percent of experiments in which any printed interval misses, over all strata and within single ones (nothing differs; order known; drift 1 % a run; ${size} experiments a line, error of a percentage near 5: ${errorOfPercentage(size)} points). With 2 runs of each in a stratum no interval is printed within it.`,
    markdownTable(['study', 'one change', 'half-width', 'any miss', 'any miss within strata'], rows),
  );
};

function labelOf({ scatter, runs, strata, bands }: WrittenStudy): string {
  const where = strata === 1 ? `${runs} runs each` : `${strata} strata, ${runs} runs each in every one`;
  const spreads = scatter.map((one) => Number((100 * one).toFixed(1))).join('/');
  return `${scatter.length} conditions, ${where}, ${bands} ${bands === 1 ? 'band' : 'bands'}, ${spreads} %`;
}
