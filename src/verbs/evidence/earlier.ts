import { earlierStudies, recordPaths } from '../../analysis/evidence/earlier.ts';
import { success } from '../../result/result.ts';
import { answerOf, option, textOf, textsIn, type Verb } from '../verb.ts';

export const earlier: Verb = {
  needsNoSamples: true,
  form: {
    verb: 'earlier',
    summary: 'Reads the numbers of another study from its record.',
    help: 'A record is what `washboard record` writes beside a notebook: every figure of its results, to 6 significant digits, and the hashes of its raw files. Of a record with comparisons the changes are read, each with its interval, standard error and outcome as they were when the record was written; of another all its figures. `of` takes results, or what stands below them, by the names that the record has for them: `of pads`, `of "pads.rows[4..10 Hz]"`, `of "claim.reduction_percent"`. `table` lists them, `E[2].change` reads one, `agrees` holds one against another, `plot C, E` draws them beside a comparison, and `pool C, E` pools them, which nothing else does. The record is a raw file as any: its hash is in this study’s own record, and what is made of it is out of date once it changes.',
    operands: [
      {
        name: 'files',
        doc: 'Records, in quotes.',
        accepts: [{ type: 'text', role: 'files' }],
        many: true,
      },
    ],
    options: [
      {
        keyword: 'of',
        doc: 'Only these results.',
        accepts: [{ type: 'channel' }],
        many: true,
        default: 'all comparisons, else all figures',
      },
      {
        keyword: 'label',
        doc: 'What the study is called.',
        accepts: [{ type: 'text', role: 'label' }],
        default: 'the name of its notebook',
      },
    ],
    gives: 'earlier',
    examples: [
      'earlier "three-pads.record.json"',
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\ngel = load "raw/brick-gel-*.csv.gz" | channel z | trim 10..70 s\nC = compare foam with gel over 10..50 Hz\nE = earlier "three-pads.record.json" of pads\nplot C, E\nE',
    ],
  },
  async sources(given, files) {
    const paths = await recordPaths(textsIn(given.operands.files), files);
    return paths.ok ? success(paths.value.map((path) => ({ path }))) : paths;
  },
  async evaluate(given, { files }) {
    const request = {
      patterns: textsIn(given.operands.files),
      of: textsIn(given.options.of),
      label: textOf(option(given, 'label')),
    };
    return answerOf(await earlierStudies(request, files));
  },
};
