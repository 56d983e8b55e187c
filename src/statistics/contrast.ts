import { ifScattered, type Estimate } from './estimate.ts';
import { dot, orthonormal, without } from './orthonormal.ts';
import { residualMaker, type Groups, type Moments, type ResidualMaker } from './residualMaker.ts';

/** What beside the two conditions the runs' levels may follow, by the design of the test and never by the data. */
export interface ContrastDesign {
  /** Condition of each run, in any order of the runs. */
  readonly conditions: readonly ('A' | 'B')[];
  /** Further columns of the model, one number a run each: a trend, an intercept a pair or a day. A constant is added. */
  readonly nuisance: readonly (readonly number[])[];
  /** How the scatter enters: a variance for each condition (`mq`), or each run's own residual (`hc2`). */
  readonly scatter: 'mq' | 'hc2';
}

/** As `ContrastDesign`, of any number of groups of runs, each with a mean and a scatter of its own. */
export interface GroupDesign extends Pick<ContrastDesign, 'nuisance'> {
  /** Group of each run, in any order of the runs: its condition, and its stratum where there are several. */
  readonly groups: readonly string[];
  /** Weight of each group's mean in what is wanted; they add to 0, and a group without one has 0. */
  readonly weights: ReadonlyMap<string, number>;
  /** As of two conditions; or one variance for all runs (`pooled`). */
  readonly scatter: 'mq' | 'hc2' | 'pooled';
}

/** What planning needs of a design. */
export interface PlannedContrast {
  /** How the residuals of A and of B divide. */
  readonly residuals: ResidualShares;
  /** Variance of the difference for variances of ln(level) of A and of B. */
  varianceOf(a: number, b: number): number;
  /** Variance and degrees of freedom that residual sums of squares of A and of B give. */
  fromSquares(a: number, b: number): { readonly variance: number; readonly df: number };
}

/** A design of groups made ready: the same for every band whose runs it orders. */
export interface GroupContrast {
  /** Weights of ln(level) in the difference; they add to 0. */
  readonly weights: Float64Array;
  /** Columns taken out beside the groups' means; undefined where the scatter is not that of single runs. */
  readonly nuisance?: readonly (readonly number[])[];
  /** sum w^2 over what it were without the nuisance: 1 where the groups are balanced over all columns, more where they lean. */
  readonly varianceInflation: number;
  /** @param y ln(level) of each run, in the design's order; undefined where the runs do not scatter */
  estimate(y: readonly number[]): Estimate | undefined;
  /**
   * Standard deviation of ln(level) from run to run in the groups that have a weight, once the nuisance columns have taken their
   * part: the root of sum e_i^2 / sum M_ii over their runs. Without nuisance it is the standard deviation pooled over them.
   */
  spread?(y: readonly number[]): number;
}

/** A design of two conditions made ready. */
export interface Contrast extends GroupContrast, PlannedContrast {}

/**
 * Difference of two conditions when nuisance columns are taken out by least squares, with the scatter of each
 * condition by itself. With M = I - H, e = M y and w the row of (X'X)^-1 X' that gives the difference:
 *
 * - `mq`: a variance a condition by quadratic unbiased estimation, s^2 = T^-1 Q with Q_g = sum e_i^2 and
 *   T_gh = sum M_ij^2 (Rao 1970, MINQUE with unit weights); v = sum W_g s_g^2, W_g = sum w_i^2;
 * - `hc2`: v = sum w_i^2 e_i^2 / (1 - h_i) (MacKinnon & White 1985).
 *
 * Degrees of freedom by Satterthwaite's rule on v as a quadratic form of the scatter (Bell & McCaffrey 2002): with
 * K = M D M, (sum a_g s_g^2)^2 / sum b_gh s_g^2 s_h^2. Without nuisance both are Welch's t; with an intercept a pair
 * `hc2` is the paired t.
 *
 * @returns undefined where the columns leave nothing to tell the conditions apart by, or no residual
 */
export function contrast({ conditions, nuisance, scatter }: ContrastDesign): Contrast | undefined {
  const weights = new Map([
    ['A', -1],
    ['B', 1],
  ]);
  const made = fitted({ groups: conditions, weights, nuisance, scatter }, ['A', 'B']);
  if (made === undefined) return undefined;
  const { scattering, residual, members, shared } = made;
  const shares = members.map((g) => sum(g, (i) => made.contrast.weights[i] ** 2));
  return {
    ...made.contrast,
    residuals: residualShares(residual, members, shared),
    varianceOf: (a, b) => shares[0] * a + shares[1] * b,
    fromSquares: (a, b) => {
      const groupVariances = scattering.fromSquares([a, b]);
      const variance = shares[0] * groupVariances[0] + shares[1] * groupVariances[1];
      return { variance, df: degreesOfFreedom(scattering.moments, groupVariances) };
    },
  };
}

/**
 * A difference among the means of any number of groups, as `contrast` gives it of two: groups that have no weight in it
 * help to tell the nuisance columns, and bring their own mean and scatter. With `pooled` v = sum w_i^2 s^2, s^2 the
 * residual mean square of all runs, and its degrees of freedom.
 *
 * @returns undefined where the columns leave nothing to tell the groups apart by, or no residual
 */
export const groupContrast = (design: GroupDesign): GroupContrast | undefined =>
  fitted(design, [...new Set(design.groups)])?.contrast;

interface Fitted {
  readonly contrast: GroupContrast;
  readonly scattering: Scatter;
  readonly residual: ResidualMaker;
  /** Indices of each group's runs. */
  readonly members: Groups;
  /** Columns beside the groups' means. */
  readonly shared: number;
}

function fitted(
  { groups, weights: wanted, nuisance, scatter }: GroupDesign,
  names: readonly string[],
): Fitted | undefined {
  const n = groups.length;
  const members = names.map((name) => groups.flatMap((other, i) => (other === name ? [i] : [])));
  if (members.some((g) => g.length === 0)) return undefined;
  const pivot = names.findLast((name) => (wanted.get(name) ?? 0) !== 0);
  const weightOf = (name: string): number => wanted.get(name) ?? 0;
  if (pivot === undefined) return undefined;
  // Means of the groups between which the difference wanted is 0; of two conditions that is a constant.
  const level = names
    .filter((name) => name !== pivot)
    .map((name) => groups.map((one) => (one === name ? 1 : one === pivot ? 0 - weightOf(name) / weightOf(pivot) : 0)));
  const basis = orthonormal([...level, ...nuisance], n);
  const indicator = Float64Array.from(groups, (one) => (one === pivot ? 1 / weightOf(pivot) : 0));
  const size = dot(indicator, indicator);
  const rest = without(without(indicator, basis), basis);
  const square = dot(rest, rest);
  // What is left of the groups once the other columns have taken their part: rounding, or something.
  if (square <= 1e-9 * size) return undefined;
  const weights = rest.map((value) => value / square);
  const residual = residualMaker([...basis, rest.map((value) => value / Math.sqrt(square))], n);
  const free = n - basis.length - 1;
  if (free < 1) return undefined;
  const scattering = scatterings[scatter](residual, weights, members, free);
  if (scattering === undefined) return undefined;
  const plain = names.reduce((total, name, k) => total + weightOf(name) ** 2 / members[k].length, 0);
  return {
    scattering,
    residual,
    members,
    shared: basis.length - (names.length - 1),
    contrast: {
      weights,
      nuisance,
      varianceInflation: dot(weights, weights) / plain,
      spread: (y) => {
        const own = members.flatMap((group, k) => (weightOf(names[k]) === 0 ? [] : group));
        const e = residual.of(y);
        return Math.sqrt(sum(own, (i) => e[i] ** 2) / sum(own, (i) => residual.diagonal[i]));
      },
      estimate: (y) => {
        const e = residual.of(y);
        const { variance, groupVariances } = scattering(e);
        return ifScattered({
          difference: dot(weights, y),
          standardError: Math.sqrt(variance),
          df: degreesOfFreedom(scattering.moments, groupVariances),
        });
      },
    },
  };
}

/**
 * Independent directions of the residuals: of A alone, of B alone, and those that both share because a column of the
 * model runs through both; of the square of a shared one A has the part `sharedInA`, as a mean over them.
 */
export interface ResidualShares {
  readonly ownA: number;
  readonly ownB: number;
  readonly shared: number;
  readonly sharedInA: number;
}

/** The variance of a difference from the residuals, and each condition's scatter behind its degrees of freedom. */
interface Scatter {
  (e: readonly number[]): { readonly variance: number; readonly groupVariances: readonly number[] };
  readonly moments: Moments;
  /** Each condition's variance from its residual sum of squares. */
  readonly fromSquares: (q: readonly number[]) => number[];
}

function residualShares(m: ResidualMaker, groups: Groups, shared: number): ResidualShares {
  const [ownA, ownB] = groups.map((g) => Math.max(0, g.length - 1 - shared));
  const free = sum(groups[0], (i) => m.diagonal[i]);
  return { ownA, ownB, shared, sharedInA: shared === 0 ? 0 : Math.min(1, Math.max(0, (free - ownA) / shared)) };
}

type MakeScatter = (m: ResidualMaker, w: Float64Array, groups: Groups, free: number) => Scatter | undefined;

const scatterings: Readonly<Record<GroupDesign['scatter'], MakeScatter>> = { mq: byGroup, hc2: byRun, pooled };

function byGroup(m: ResidualMaker, w: Float64Array, groups: Groups): Scatter | undefined {
  const t = m.squares(groups);
  const inverse = inverseOf(t);
  if (inverse === undefined) return undefined;
  const share = groups.map((g) => sum(g, (i) => w[i] ** 2));
  const c = groups.map((_, h) => sumOf(share.map((part, g) => part * inverse[g][h])));
  const diagonal = new Float64Array(w.length);
  groups.forEach((g, k) => g.forEach((i) => (diagonal[i] = c[k])));
  const fromSquares = (q: readonly number[]): number[] => {
    const floor = 1e-9 * sumOf(q);
    return inverse.map((row) => Math.max(floor, sumOf(row.map((part, g) => part * q[g]))));
  };
  const scatter = (e: readonly number[]): ReturnType<Scatter> => {
    const groupVariances = fromSquares(groups.map((g) => sum(g, (i) => e[i] ** 2)));
    return { variance: sumOf(share.map((part, g) => part * groupVariances[g])), groupVariances };
  };
  return Object.assign(scatter, { moments: m.moments(diagonal, groups), fromSquares });
}

/** One variance for all runs. */
function pooled(m: ResidualMaker, w: Float64Array, groups: Groups, free: number): Scatter {
  const square = dot(w, w);
  const fromSquares = (q: readonly number[]): number[] => q.map(() => sumOf(q) / free);
  const scatter = (e: readonly number[]): ReturnType<Scatter> => {
    const groupVariances = fromSquares(groups.map((g) => sum(g, (i) => e[i] ** 2)));
    return { variance: square * groupVariances[0], groupVariances };
  };
  const diagonal = new Float64Array(w.length).fill(square / free);
  return Object.assign(scatter, { moments: m.moments(diagonal, groups), fromSquares });
}

/** The inverse of a matrix of positive sums, of two groups in closed form; undefined where it is singular to rounding. */
function inverseOf(t: readonly (readonly number[])[]): number[][] | undefined {
  if (t.length !== 2) return eliminated(t);
  const determinant = t[0][0] * t[1][1] - t[0][1] * t[1][0];
  if (determinant <= 1e-9 * t[0][0] * t[1][1]) return undefined;
  return [
    [t[1][1] / determinant, -t[0][1] / determinant],
    [-t[1][0] / determinant, t[0][0] / determinant],
  ];
}

/** By Gauss and Jordan's elimination with the largest pivot of each column. */
function eliminated(t: readonly (readonly number[])[]): number[][] | undefined {
  const n = t.length;
  const rows = t.map((row, i) => [...row, ...t.map((_, j) => (i === j ? 1 : 0))]);
  for (let k = 0; k < n; k++) {
    const best = rows.reduce((top, row, i) => (i >= k && Math.abs(row[k]) > Math.abs(rows[top][k]) ? i : top), k);
    if (Math.abs(rows[best][k]) <= 1e-9 * Math.max(...t[k])) return undefined;
    [rows[k], rows[best]] = [rows[best], rows[k]];
    const lead = rows[k].map((value) => value / rows[k][k]);
    rows.forEach((row, i) => (rows[i] = i === k ? lead : row.map((value, j) => value - row[k] * lead[j])));
  }
  return rows.map((row) => row.slice(n));
}

function byRun(m: ResidualMaker, w: Float64Array, groups: Groups): Scatter | undefined {
  const free = m.diagonal;
  // A run that the columns fit alone has no residual of its own.
  if (free.some((left) => left <= 1e-9)) return undefined;
  const diagonal = w.map((weight, i) => weight ** 2 / free[i]);
  const fromSquares = (q: readonly number[]): number[] => q.map((square, k) => square / sum(groups[k], (i) => free[i]));
  const scatter = (e: readonly number[]): ReturnType<Scatter> => ({
    variance: e.reduce((total, value, i) => total + diagonal[i] * value ** 2, 0),
    groupVariances: fromSquares(groups.map((g) => sum(g, (i) => e[i] ** 2))),
  });
  return Object.assign(scatter, { moments: m.moments(diagonal, groups), fromSquares });
}

function degreesOfFreedom({ mean, variance }: Moments, s: readonly number[]): number {
  const most = Math.max(...s);
  if (!(most > 0)) return 1;
  // Relative to the largest, so that tiny variances do not underflow when squared.
  const r = s.map((value) => value / most);
  const top = sumOf(mean.map((part, g) => part * r[g])) ** 2;
  return top / r.reduce((total, g, i) => total + r.reduce((part, h, j) => part + variance[i][j] * g * h, 0), 0);
}

const sum = (list: readonly number[], of: (i: number) => number): number => list.reduce((total, i) => total + of(i), 0);
const sumOf = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
