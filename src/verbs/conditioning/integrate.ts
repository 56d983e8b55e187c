import { integrated, type Goal } from '../../analysis/conditioning/integrate.ts';
import { operand, siOf, valueOf, wordOf, type Verb } from '../verb.ts';

/** Hz. */
const usualLowCut = 1;

export const integrate: Verb = {
  each: 'runs',
  form: {
    verb: 'integrate',
    summary: 'Gives velocity or displacement from acceleration.',
    help: 'Each bin of an unbroken stretch’s transform is divided by 2πif once for velocity (m/s) or twice for displacement (mm); a velocity is integrated once to displacement. Below the low cut the result fades to nothing: offset and drift, divided by a small frequency, would swamp the rest. What lies before and after a stretch is not known, so 1.2 periods of the low cut are left out at each of its ends (twice that for displacement from acceleration); what is left is within 1 % from the low cut on. The result depends on the low cut, so it is part of the result’s history, charts begin there, and bands must; a high-pass before or after with a higher corner bounds them in the same way. Set it below the lowest frequency of interest. A sine of 0.30 g r.m.s. at 20 Hz has 0.0234 m/s and 0.186 mm r.m.s.',
    operands: [
      { name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] },
      {
        name: 'goal',
        doc: 'What is wanted.',
        accepts: [{ type: 'word', words: ['velocity', 'displacement'] }],
        keyword: 'to',
      },
    ],
    options: [
      {
        keyword: 'above',
        doc: 'The low cut.',
        accepts: [{ type: 'quantity', dimension: 'frequency', above: 0 }],
        default: '1 Hz',
      },
    ],
    gives: 'runs',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nintegrate foam to velocity above 2 Hz',
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nintegrate foam to displacement above 2 Hz',
    ],
  },
  evaluate(given, { watch }) {
    const goal = wordOf(operand(given, 'goal')) as Goal;
    return integrated(valueOf(given, 'runs', 'runs'), goal, siOf(given, 'above') ?? usualLowCut, watch);
  },
};
