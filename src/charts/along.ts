import { logOf } from '../numbers/logarithm.ts';
import type { Domain } from './axes.ts';

/** Where a frequency lies along an axis, 0 to 1. */
export function along(domain: Domain, scale: 'linear' | 'log', at: number): number {
  return scale === 'log'
    ? logOf(at / domain.from) / logOf(domain.to / domain.from)
    : (at - domain.from) / (domain.to - domain.from);
}
