/** Thresholds by which a recording is judged; engineering choices unless a source stands beside them. */
export const settings = {
  /** Step over the usual step from which samples count as missing. */
  gapSteps: 1.5,
  /** Where so large a share of steps is that long, sampling is uneven rather than interrupted. */
  unevenShare: 0.01,
  /** … and only a step of so many usual ones is a gap. */
  unevenGapSteps: 5,
  /** Unevenness (standard deviation of the steps over their mean) that is worth a note, a resampling, a refusal. */
  jitter: { note: 0.01, resample: 0.05, refuse: 0.25 },
  /** Difference between the measured rate and a stated one. */
  rate: { note: 0.005, warning: 0.05 },
  /** Share of missing samples from which gaps are a warning. */
  missing: 0.01,
  /** Share of repeated or backward stamps from which they were delivered in bursts. */
  burst: 0.05,
  /** Rounding of the stamps over the length of the recording from which the rate is taken from their edges. */
  coarse: 1e-3,
  /** Rates in Hz that a column of numbers without a unit is believed to be sampled at. */
  plausibleRate: { low: 4, lowWithFraction: 0.5, high: 20_000 },
  /** Length of the mean vector in each unit that a still sensor shows, as shares of standard gravity. */
  gravity: { low: 0.85, high: 1.15 },
  /** Share of gravity below which a mean vector says nothing of the unit. */
  noGravity: 0.08,
  /** Share of empty cells from which a column is left out. */
  emptyCells: 0.05,
} as const;
