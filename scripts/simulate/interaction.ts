import { limits } from './limits.ts';
import { noise } from './noise.ts';
import { section, type Part } from './section.ts';
import { markdownTable } from './table.ts';
import { errorOfPercentage, writtenExperiments, writtenRates, type WrittenStudy } from './throughVerbs.ts';

const studies: readonly Pick<WrittenStudy, 'scatter' | 'runs' | 'strata' | 'drift'>[] = [
  ...[2, 4, 6].flatMap((runs) => [2, 3].map((strata) => ({ scatter: [0.03, 0.03], runs, strata, drift: 0 }))),
  { scatter: [0.03, 0.03], runs: 4, strata: 2, drift: 0.01 },
  { scatter: [0.03, 0.1], runs: 2, strata: 2, drift: 0 },
  { scatter: [0.03, 0.1], runs: 4, strata: 3, drift: 0 },
];

/** How often a change that is alike in all strata is held to differ, from the recordings' text to the rows of `compare`. */
export const interactionPart: Part = async ({ seed, experiments }, checked) => {
  const random = noise(seed);
  const size = writtenExperiments(experiments);
  const rows: string[][] = [];
  for (const study of studies) {
    const { differing } = await writtenRates({ ...study, bands: 1 }, size, random);
    const [a, b] = study.scatter;
    const wanders = study.drift === 0 ? 'no drift' : `drift ${100 * study.drift} % a run`;
    const label = `${study.strata} strata, ${study.runs} runs each in every one, ${100 * a}/${100 * b} %, ${wanders}`;
    if (a === b) checked.atMost(`differences between strata: ${label}`, differing, limits.falseInteraction);
    rows.push([label, differing.toFixed(1)]);
  }
  return section(
    'Whether a change differs between strata, from recordings to rows',
    `Recordings and run sheets written out, loaded by the sheet, and compared by \`compare a with b within site over …\`: percent of experiments in which p of the F of interaction is at most 5 % where the change is alike in all strata (order known; ${size} experiments a line, error of a percentage near 5: ${errorOfPercentage(size)} points). The last two lines have unlike scatters, against its assumption, and promise nothing.`,
    markdownTable(['study', 'p at most 5 %'], rows),
  );
};
