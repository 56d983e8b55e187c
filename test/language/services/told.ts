import type { Completion } from '../../../src/language/services/offer.ts';

/** An offer in short: what it writes where that is not its label, and `…` where the next is wanted right after it. */
const told = ({ label, insert, again }: Completion): string =>
  `${label}${insert === label ? '' : ` → <${insert}>`}${again === true ? '…' : ''}`;

/** Offers in their order, a line for those of one kind and rank that follow each other. */
export function toldOffers(offers: readonly Completion[]): string[] {
  const lines: { readonly head: string; readonly offers: string[] }[] = [];
  for (const offer of offers) {
    const head = `${offer.rank} ${offer.kind}`;
    const last = lines.at(-1);
    if (last?.head === head) last.offers.push(told(offer));
    else lines.push({ head, offers: [told(offer)] });
  }
  return lines.map(({ head, offers: all }) => `${head}: ${all.join(', ')}`);
}
