import fc from 'fast-check';

export const degrees = fc.double({ min: 0.5, max: 5000, noNaN: true });
export const probability = fc.double({ min: 1e-12, max: 1 - 1e-12, noNaN: true });
