import { dot } from './orthonormal.ts';

/** Indices of each group's runs. */
export type Groups = readonly (readonly number[])[];

/** Of the quadratic form e'De in residuals e: its mean and variance as forms of the groups' variances. */
export interface Moments {
  readonly mean: readonly number[];
  readonly variance: readonly (readonly number[])[];
}

/** M = I - QQ', which takes the columns of a model out of what was measured: e = My. */
export interface ResidualMaker {
  /** M_ii of each run. */
  readonly diagonal: Float64Array;
  of(y: readonly number[]): number[];
  /** Sums of M_ij^2 with run i of one group and j of another, for each pair of groups. */
  squares(groups: Groups): number[][];
  /** With K = MDM: sums of K_ii over each group, and of K_ij^2 over each pair. @param d the diagonal of D */
  moments(d: Float64Array, groups: Groups): Moments;
}

/** Up to so many runs a matrix takes less than a millisecond; beyond, its time grows with their third power. */
const mostInMatrix = 100;

/** @param basis orthonormal columns Q, one number a run each @param n number of runs */
export function residualMaker(basis: readonly Float64Array[], n: number): ResidualMaker {
  return n <= mostInMatrix || 3 * basis.length >= n ? byMatrix(basis, n) : byColumns(basis, n);
}

/** By the matrix M itself: n^3 operations. @param basis as of `residualMaker` */
export function byMatrix(basis: readonly Float64Array[], n: number): ResidualMaker {
  const m = Array.from({ length: n }, (_, i) =>
    Float64Array.from({ length: n }, (_, j) => basis.reduce((left, q) => left - q[i] * q[j], i === j ? 1 : 0)),
  );
  return {
    diagonal: Float64Array.from(m, (row, i) => row[i]),
    of: (y) => m.map((row) => dot(row, y)),
    squares: (groups) => groups.map((g) => groups.map((h) => sum(g, (i) => sum(h, (j) => m[i][j] ** 2)))),
    moments: (d, groups) => {
      const k = m.map((row) => {
        const line = new Float64Array(n);
        for (let l = 0; l < n; l++) {
          const part = row[l] * d[l];
          for (let j = 0; j < n; j++) line[j] += part * m[l][j];
        }
        return line;
      });
      return {
        mean: groups.map((g) => sum(g, (i) => k[i][i])),
        variance: groups.map((g) => groups.map((h) => sum(g, (i) => sum(h, (j) => k[i][j] ** 2)))),
      };
    },
  };
}

/**
 * By the columns of Q alone, n q^2 operations for q columns. With A = DQ and S = Q'DQ, K = D - (AQ' + QA' - QSQ') = D - BC'
 * for B = [A, Q, -QS] and C = [Q, A, Q], and the sum of (BC')_ij^2 over runs i of g and j of h is that of the products of
 * B_g'B_g and C_h'C_h, element by element.
 *
 * @param basis as of `residualMaker`
 */
export function byColumns(basis: readonly Float64Array[], n: number): ResidualMaker {
  const diagonal = Float64Array.from({ length: n }, (_, i) => basis.reduce((left, q) => left - q[i] ** 2, 1));
  return {
    diagonal,
    of: (y) => {
      const along = basis.map((q) => dot(q, y));
      return Array.from(y, (value, i) => basis.reduce((left, q, k) => left - along[k] * q[i], value));
    },
    squares: (groups) => {
      const own = groups.map((g) => sum(g, (i) => 2 * diagonal[i] - 1));
      return squaredSums({ left: basis, right: basis }, groups, own);
    },
    moments: (d, groups) => {
      const a = basis.map((q) => q.map((value, i) => value * d[i]));
      const s = basis.map((q) => a.map((column) => dot(column, q)));
      const qs = basis.map((_, k) =>
        Float64Array.from({ length: n }, (_, i) => -basis.reduce((total, q, l) => total + q[i] * s[l][k], 0)),
      );
      const [left, right] = [
        [...a, ...basis, ...qs],
        [...basis, ...a, ...basis],
      ];
      const taken = Float64Array.from({ length: n }, (_, i) =>
        left.reduce((total, column, k) => total + column[i] * right[k][i], 0),
      );
      const own = groups.map((g) => sum(g, (i) => d[i] ** 2 - 2 * d[i] * taken[i]));
      return {
        mean: groups.map((g) => sum(g, (i) => d[i] - taken[i])),
        variance: squaredSums({ left, right }, groups, own),
      };
    },
  };
}

interface Product {
  readonly left: readonly Float64Array[];
  readonly right: readonly Float64Array[];
}

/** Sums of (BC')_ij^2 over each pair of groups. @param own what each group has beside with itself */
function squaredSums({ left, right }: Product, groups: Groups, own: readonly number[]): number[][] {
  const products = (columns: readonly Float64Array[], g: readonly number[]): number[] =>
    columns.flatMap((one) => columns.map((other) => sum(g, (i) => one[i] * other[i])));
  const lefts = groups.map((g) => products(left, g));
  const rights = left === right ? lefts : groups.map((g) => products(right, g));
  return groups.map((_, g) => groups.map((_, h) => (g === h ? own[g] : 0) + dot(lefts[g], rights[h])));
}

const sum = (list: readonly number[], of: (i: number) => number): number => {
  let total = 0;
  for (const i of list) total += of(i);
  return total;
};
