/** What may be claimed, for those who take a claim down from its words. */
export { isPossible } from '../../statistics/claimForm.ts';
