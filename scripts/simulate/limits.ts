/** What the experiments have to show. A run of `npm run simulate` and the tests fail outside these limits. */
export const limits = {
  /** Coverage of the default 95 % interval in percent. */
  coverage: [93.5, 97.5],
  /** False alarms of a family of nine bands, most percent of experiments. */
  familyAlarms: 5,
  /** A claim at exactly its true value: most percent supported, and most percent contradicted. */
  wrongVerdicts: 3,
  /** Called equivalent at exactly the margin: most percent (a nominal 5, and what chance adds). */
  falseEquivalence: 5.5,
} as const;

/** The limits that a figure breaks, as sentences; none when all hold. */
export class Limits {
  readonly broken: string[] = [];

  coverage(what: string, percent: number): void {
    const [least, most] = limits.coverage;
    if (!(percent >= least && percent <= most))
      this.broken.push(`${what}: coverage ${percent.toFixed(1)} %, not within ${least} to ${most} %`);
  }

  atMost(what: string, percent: number, most: number): void {
    if (!(percent <= most)) this.broken.push(`${what}: ${percent.toFixed(1)} %, more than ${most} %`);
  }
}
