/** How one of two loggers that lie side by side records: its clock shows t (1 + ppm/10^6) - late at t. */
export interface SideLogger {
  /** Hz, on its own clock. */
  readonly rate: number;
  readonly late: number;
  readonly ppm: number;
  /** Reading over what acts, of x and z. */
  readonly gains: readonly [number, number];
  /** g, gravity in z included. */
  readonly offsets: readonly [number, number];
  readonly seed: number;
  readonly seconds: number;
}

/** Two loggers on one plate, started by hand one after the other. Frequencies in Hz, levels and noise in g r.m.s. */
export const sideBySide: {
  readonly lowest: number;
  readonly highest: number;
  readonly level: number;
  readonly tones: number;
  readonly noise: number;
  readonly loggers: Readonly<Record<'left' | 'right', SideLogger>>;
} = {
  ...{ lowest: 3, highest: 75, level: 0.15, tones: 150, noise: 0.004 },
  loggers: {
    left: { rate: 200, late: 0, ppm: 0, gains: [1, 1], offsets: [0.01, 1], seed: 72, seconds: 50 },
    right: { rate: 250, late: 1.37, ppm: 45, gains: [1.006, 1.018], offsets: [-0.02, 1.01], seed: 73, seconds: 47 },
  },
};
