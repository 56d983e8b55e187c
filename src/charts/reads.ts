/** What a row of a chart's data tells of its curve, so that a reader can ask for its values at a place. */
export interface Reads {
  readonly label: string;
  /** As it is printed. */
  readonly unit: string;
  /** So many times log10 of the ratio of two values is the dB between them; none where these mean nothing. */
  readonly times?: 10 | 20;
  /** Of values that are told in dB: 1 in the data is so much of the reference. */
  readonly factor?: number;
}
