/** One pass of a transform: `blocks` butterflies of the radix, each on `stride` neighbouring columns. */
export interface Stage {
  readonly radix: number;
  readonly blocks: number;
  readonly stride: number;
  /** For block p the factors w^p, w^2p … one after another, radix - 1 of them. */
  readonly re: Float64Array;
  readonly im: Float64Array;
}
