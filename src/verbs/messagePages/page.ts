/** A code's page in the reference: what it means, a cell that has it when it runs, and the same put right. */
export interface RunPage {
  readonly title: string;
  readonly why: string;
  readonly wrong: string;
  readonly right: string;
}

export const page = (title: string, why: string, wrong: string, right: string): RunPage => ({
  title,
  why,
  wrong,
  right,
});

/** A line after the recording that the examples work on. */
export const after = (line: string, ground = 'foam = load "raw/brick-foam-1.csv.gz" channel z'): string =>
  `${ground}\n${line}`;
