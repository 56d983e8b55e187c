import { weighted, weightingNames, type WeightingName } from '../../analysis/conditioning/weight.ts';
import { valueOf, wordOf, type Verb } from '../verb.ts';

const purposes: Readonly<Record<WeightingName, string>> = {
  wk: 'vertical, whole body',
  wd: 'horizontal, whole body',
  wf: 'motion sickness',
  wc: 'seat back',
  we: 'rotation',
  wj: 'head of a person lying down',
  wb: 'passengers of a train, vertical',
  wm: 'people in buildings, any direction',
  wh: 'hand-arm',
};

export const weight: Verb = {
  each: 'runs',
  form: {
    verb: 'weight',
    summary: 'Weights accelerations by how strongly a person responds to each frequency.',
    help: `Frequency weightings as ISO 8041-1 defines them: ${weightingNames.map((name) => `\`${name}\` ${purposes[name]}`).join(', ')} (ISO 2631-1:1997; \`wb\` ISO 2631-4:2001 and, 2 % apart in its gain, BS 6841:1987; \`wm\` ISO 2631-2:2003; \`wh\` ISO 5349-1:2001). Each unbroken stretch is transformed whole, multiplied by the weighting’s magnitude and phase, and transformed back: no filter’s error near half the rate. The mean, and gravity in it, is removed by the weighting. Give one weighting for all channels, or one for each in their order: \`wd wd wk\` for x, y and z of a seated person, or for the axes of their \`resultant\`. Weighted levels say something of a person only where the acceleration enters the body: on the seat, or at the hand.`,
    operands: [
      { name: 'runs', doc: 'The runs, of accelerations.', accepts: [{ type: 'value', kinds: ['runs'] }] },
      {
        name: 'weightings',
        doc: 'The weighting: one, or one for each channel or axis.',
        accepts: [{ type: 'word', words: weightingNames }],
        many: true,
      },
    ],
    options: [],
    gives: 'runs',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nweight foam wk',
      'foam = load "raw/brick-foam-*.csv.gz" | trim 10..70 s\nweight foam wd wd wk',
    ],
  },
  evaluate(given, { watch }) {
    const names = (given.operands.weightings ?? []).map((one) => wordOf(one) as WeightingName);
    return weighted(valueOf(given, 'runs', 'runs'), names, watch);
  },
};
