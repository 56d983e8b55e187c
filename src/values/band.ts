export interface Band {
  /** Hz */
  readonly from: number;
  readonly to: number;
  /** Nominal mid-band of a fractional-octave band, such as `31.5`. */
  readonly label?: string;
}
