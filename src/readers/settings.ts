/** Thresholds by which a recording is judged; engineering choices unless a source stands beside them. */
export const settings = {
  /** Step over the usual step from which samples count as missing. */
  gapSteps: 1.5,
  /** Usual steps by which stamps that stay behind lie back, from which the clock was set or the rows come late. */
  setBack: 1.5,
  /** Where so large a share of steps is that long, sampling is uneven rather than interrupted. */
  unevenShare: 0.01,
  /** … and only a step of so many usual ones is a gap. */
  unevenGapSteps: 5,
  /** Gaps of so many steps at most, that far from a whole number of them at most, are counted across for the rate. */
  across: { most: 50, off: 0.25 },
  /**
   * Stamps rounded to more than so many steps can hide the loss of one sample. It is looked for with so many rows on either
   * side: their offsets from even sampling have to fill the rounding but for so many steps and reach beyond it by less than
   * so many, and move by so many at least.
   */
  slips: { from: 0.5, rows: [64, 24], unfilled: 0.35, beyond: 0.5, shift: 0.6 },
  /**
   * A rate by the phases of coarse stamps: lengths of the pieces that are searched first, rows and rates that are searched at
   * most, by how many standard deviations of noise it stands out, how near to a whole number of samples a quantum none is
   * found, the share of rows that may not keep to it and the least share of samples that are there.
   */
  phases: { pieces: [256, 1024, 4096], searched: 16_384, rates: 8192, above: 7, near: 0.04, off: 0.02, share: 0.4 },
  /**
   * Samples counted step by step: the coarsest stamps, as a share of a step, samples in the longest step that is counted, over
   * how many steps rows must keep to the count, by how much the rate may sway, the share of rows that may not keep to it, and of
   * those that may come sooner than a sample after the one before.
   */
  counting: { most: 0.48, longest: 8, over: 32, sway: 2e-3, off: 0.01, shared: 1e-3 },
  /**
   * A rate by the samples that each quantum of coarse stamps holds: fewest and most of them, quanta in a piece and over which a
   * clock is held to keep step, pieces, how far rates that are tried lie apart (in turns over a piece) and how many scores are
   * taken at most; empty quanta in a row that are a gap, by how much the logarithm of the likelihood stands out, the least chance of
   * any count, by how many samples a stamp may be off, about how uneven sampling is, by how much a quantum's score may be
   * below the one that losses at random would leave, and how many turns a quantum, from a whole number, phases tell the rate by
   * themselves; of a clock that drifts, how far from the middle its rate may come, as a share, and by how much the logarithm stands out.
   */
  occupancy: {
    fewest: 0.55,
    most: 4,
    lengths: [1024, 2048, 4096],
    longest: 32_768,
    blocks: 4,
    apart: 0.08,
    rates: 16_384,
    gap: 8,
    above: 12,
    stray: 1e-4,
    tolerance: 0.08,
    uneven: 0.02,
    unusual: 0.05,
    clear: 0.2,
    drift: 2e-3,
    aboveDrifting: 20,
  },
  /** Steps that stamps are rounded to, from which a lost sample looks like the rounding of a slower clock. */
  roundedGaps: 0.75,
  /** Error of the rate, as a share, from which it is told; a share of rows that are breaks from which it is refined. */
  uncertain: 1e-3,
  refined: 0.01,
  /** Unevenness (standard deviation of the steps over their mean) that is worth a note, a resampling, a refusal. */
  jitter: { note: 0.01, resample: 0.05, refuse: 0.25 },
  /** Difference between the measured rate and a stated one. */
  rate: { note: 0.005, warning: 0.05 },
  /** Share of missing samples from which gaps are a warning. */
  missing: 0.01,
  /** Share of repeated or backward stamps from which they were delivered in bursts. */
  burst: 0.05,
  /** Share of the rows that come late, and of all rows, whose stamps have been before, from which they were sent twice. */
  again: { late: 0.9, rows: 0.01 },
  /** Rows whose stamps may be far off between two that fit each other, by so many s or steps; how well those fit, in steps. */
  astray: { most: 1000, seconds: 1, steps: 20, fit: 0.5 },
  /** A stamp shared by so many rows, and so many times the usual, shows a clock that stood still. */
  stopped: { rows: 20, times: 10 },
  /** Parts of so many steps whose length differs from the mean by more than so large a share show a changing rate. */
  changingRate: { steps: 64, share: 0.02 },
  /** Rounding of the stamps over the length of the recording from which the rate is taken from their edges. */
  coarse: 1e-3,
  /** Rates in Hz that a column of numbers without a unit is believed to be sampled at. */
  plausibleRate: { low: 0.5, high: 20_000 },
  /** The first number of a clock of the day over what it runs on; the fastest rate in Hz of a converter whose time is in seconds. */
  ofDay: 3,
  fastConverter: 200_000,
  /**
   * A time without a unit is as likely in minutes as in seconds above such a rate in Hz that is none of the usual ones, over less
   * than so many s, where minutes would give such a rate at least.
   */
  minutes: {
    rate: 1000,
    length: 15,
    slow: 10,
    round: [1, 1.25, 1.28, 1.6, 2, 2.5, 2.56, 3.2, 4, 5, 5.12, 6.4, 8, 8.192],
  },
  /** Length in s beyond which a unit of time is not believed where another gives a shorter recording. */
  plausibleLength: 3 * 86_400,
  /** Rates in Hz that a column with a unit may give. */
  possibleRate: { slowest: 1e-4, fastest: 1e8 },
  /** Length of the mean vector in each unit that a still sensor shows, as shares of standard gravity. */
  gravity: { low: 0.85, high: 1.15 },
  /** Share of gravity below which a mean vector says nothing of the unit. */
  noGravity: 0.08,
  /** Share of empty cells from which a column is left out. */
  emptyCells: 0.05,
  /**
   * Chance of an extreme to look as it does by itself below which it is called clipped, and the same where it lies at the
   * end of a usual range (in g). One plateau of so few samples by itself is called so only below a smaller chance: of many
   * channels, some have one. Lone samples are a heap at one in so many tops at most. Where noise was added after the sensor
   * stopped, the heap holds so many samples within such a share of the range, and so many times those inside of it. Of a range
   * that the file states even a lone sample counts within so many of the converter's steps of its end.
   */
  clipping: {
    chance: 0.01,
    alone: 3,
    chanceAlone: 2e-4,
    chanceAtEnd: 0.05,
    lone: 0.25,
    near: 0.01,
    heap: 20,
    heapExcess: 5,
    fault: 1e-3,
    range: 0.99,
    last: 1.01,
    ranges: [2, 4, 8, 16, 24, 32, 40, 50, 64, 100, 200, 400, 500],
  },
  /**
   * Counts that overflow: steps over the range that are jumps, and the size from which others are large; fewest jumps, most of
   * them a sample, most large steps a jump, least share of jumps over which the reading goes on, that go the rarer way, and quiet
   * crossings of the middle a jump; how near the ends are to those of a converter, of so many levels at least.
   */
  wrapping: {
    jump: 0.6,
    half: 0.4,
    fewest: 6,
    many: 0.4,
    between: 0.1,
    goesOn: 0.7,
    oneWay: 0.25,
    crossings: 0.1,
    ends: 0.03,
    fewestLevels: 256,
  },
  /** A value held for more than so many samples, and so many times the usual. */
  flat: { samples: 5, times: 3 },
  /** Share of rows that repeat every axis of the row before, from which the logger outruns its sensor. */
  held: 0.2,
  /** Steps of the converter that the rms must be. */
  resolution: { fault: 3, warning: 10 },
  /** A lone sample so many robust standard deviations (1.4826 x median distance) from the median. */
  spike: 12,
  /** Blocks of so many s; largest over smallest mean square; share of the loudest, and over its fair share. */
  blocks: { length: 5, ratio: 4, share: 0.25, fair: 2, fewest: 3, trendT: 3.5, trend: 0.2 },
  /** Line over the whole recording, in g. */
  drift: 0.05,
  /** … and its slope over the error of the slope. */
  driftT: 4,
  /** Length of the mean vector in g at rest or in a run. */
  norm: { warningLow: 0.95, warningHigh: 1.05, faultLow: 0.85, faultHigh: 1.15, none: 0.1 },
  /** Share of the mean square between these shares of the rate. */
  aliasing: { from: 0.4, share: 0.1, segment: 1 },
  /** Highest edge of a band over the rate; segments of so many periods of its lowest edge; fewest averages. */
  band: { top: 0.4, periods: 4, averages: 16, segment: 2 },
  /**
   * A line in every run: longest and shortest segments in s, fewest of them in each run, height over what lies beside, squared
   * coefficient of variation of the segments' powers, and how many are told.
   */
  line: { longest: 8, shortest: 1, segments: 8, height: 6, unsteady: 0.5, most: 4 },
  /** Between the runs of a set: lengths, angle in degrees between mean vectors, level of the still parts. */
  between: { duration: 1.1, angle: { warning: 5, fault: 15 }, still: 2, stillBlock: 1, rate: 0.005 },
} as const;
