/** One axis of a sensor that measures acceleration: what it reads at rest, and what it reads of each unit. */
export interface AxisCalibration {
  /** In the readings' unit. */
  readonly offset: number;
  /** Reading for each unit of what acts on the axis. */
  readonly sensitivity: number;
  /** Standard uncertainties, from the scatter about the line; undefined where no reading is left over. */
  readonly offsetUncertainty: number | undefined;
  readonly sensitivityUncertainty: number | undefined;
  /** Degrees of freedom of both: positions less two. */
  readonly df: number;
  /** Standard deviation of the readings about the line; undefined where none is left over. */
  readonly scatter: number | undefined;
}

/**
 * The line y = offset + sensitivity x through an axis' readings in several still positions, by least squares: with positions
 * 1 g up, 1 g down and four across it has four degrees of freedom. Standard uncertainties are s sqrt of the diagonal of
 * (X'X)^-1, s^2 = sum of squared residuals / (n - 2) (JCGM 100:2008, H.3).
 *
 * @param acting what acts on the axis in each position: gravity, its opposite, or 0 across it
 * @param readings the axis' mean in each position
 * @returns undefined where what acts is the same in all positions
 */
export function axisCalibration(acting: readonly number[], readings: readonly number[]): AxisCalibration | undefined {
  const n = acting.length;
  const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / n;
  const [middle, level] = [mean(acting), mean(readings)];
  const square = acting.reduce((sum, x) => sum + (x - middle) ** 2, 0);
  if (!(square > 0)) return undefined;
  const sensitivity = acting.reduce((sum, x, i) => sum + (x - middle) * (readings[i] - level), 0) / square;
  const offset = level - sensitivity * middle;
  const rest = acting.reduce((sum, x, i) => sum + (readings[i] - offset - sensitivity * x) ** 2, 0);
  const df = n - 2;
  const scatter = df > 0 ? Math.sqrt(rest / df) : undefined;
  return {
    offset,
    sensitivity,
    offsetUncertainty: scatter && scatter * Math.sqrt(1 / n + middle ** 2 / square),
    sensitivityUncertainty: scatter && scatter / Math.sqrt(square),
    df,
    scatter,
  };
}
