/** A line after the recording that the examples work on. */
export const after = (line: string, ground = 'foam = load "raw/brick-foam-1.csv.gz" channel z'): string =>
  `${ground}\n${line}`;
