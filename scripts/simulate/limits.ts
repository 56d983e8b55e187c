/** What the experiments have to show. A run of `npm run simulate` names what is outside; the tests fail there. */
export const limits = {
  /** Coverage of the default 95 % interval in percent, where it is neither a hump nor heavy tails that are asked for. */
  coverage: [93.5, 97.5],
  /** A row of a family misses anywhere: most percent of experiments. */
  familyMisses: 5.5,
  /** A change that is alike in all strata has a p of differences of at most 5 %, where all runs scatter alike: most percent. */
  falseInteraction: 5.5,
  /** A claim at exactly its true value: most percent supported, and most percent contradicted. */
  wrongVerdicts: 3.2,
  /** Called the same at exactly the margin: most percent. */
  falseEquivalence: 3.2,
  /** The interval for all bins misses anywhere: most percent. */
  densityMisses: 5,
  /** Simulated less reckoned power, in points. */
  power: 1.5,
} as const;

/** As figures are printed, and so held to their limits: none stands in a list of misses as the limit itself. */
const printed = (percent: number): number => Number(percent.toFixed(1));

/** The limits that a figure breaks, as sentences; none when all hold. */
export class Limits {
  readonly broken: string[] = [];

  coverage(what: string, percent: number): void {
    const [least, most] = limits.coverage;
    if (!(printed(percent) >= least && printed(percent) <= most))
      this.broken.push(`${what}: coverage ${percent.toFixed(1)} %, not within ${least} to ${most} %`);
  }

  atMost(what: string, percent: number, most: number): void {
    if (!(printed(percent) <= most)) this.broken.push(`${what}: ${percent.toFixed(1)} %, more than ${most} %`);
  }
}
