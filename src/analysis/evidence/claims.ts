/** What may be claimed, for those who take a claim down from its words. */
export { isPossible } from '../../statistics/claimForm.ts';

/** How a claim is written, in a `claim` and in a `plan`: `reduction 15 %`, `reduction at-most 15 %`, `no-worse 5 %`. */
export const directionWords = ['reduction', 'increase', 'no-worse'] as const;
export const boundWords = ['at-least', 'at-most', 'about', 'up-to'] as const;
export const ofWords = ['amplitude', 'power'] as const;
