import { page, type MessagePages } from '../../result/pages.ts';
import type { AgreementFacts } from './agreement.ts';

const side = (pad: string, runs: string): string =>
  `${pad} = load "raw/brick-${pad}-${runs}.csv.gz" | channel z | trim 10..70 s`;
const compared = (runs: string): string =>
  [side('foam', runs), side('gel', runs), 'C = compare foam with gel over 10..50 Hz'].join('\n');

/** A page for every message about the agreement of quantities; the results themselves are told as sentences. */
export const agreementPages: MessagePages<Omit<AgreementFacts, 'result.agrees' | 'result.disagrees'>> = {
  'agrees.exact': page(
    'Exact quantities held against each other',
    'Whether two agree is a question of their uncertainties.',
    'agrees 12 mm with 12.1 mm',
    'agrees 12 ± 0.2 mm with 12.1 mm',
  ),
  'agrees.unknown': page(
    'A quantity whose uncertainty nobody knows',
    'Fewer than three runs a side allow no inference, nor do all runs of one side before the other’s, nor what else keeps a verdict back: then nobody knows the uncertainty that a change would be held against by.',
    `${compared('1')}\nagrees -20 ± 4 % with C.change`,
    `${compared('*')}\nagrees -20 ± 4 % with C.change`,
  ),
};
