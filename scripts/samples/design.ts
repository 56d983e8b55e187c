/**
 * What the invented study was made to show: every figure that shapes the recordings of `samples/`, and the
 * spectral densities that follow from them, so that the tests can hold the recordings against the design.
 *
 * The scenario: a wheelchair with one sitter, pushed at walking pace over bricks and over tiles, on a foam pad
 * (A) or a gel pad (B), with an acceleration logger on top of the pad. None of it was measured.
 */

export type Condition = 'foam' | 'gel';
export type Surface = 'brick' | 'tile';

/** A mass on a spring and a damper, driven at its base. */
export interface Mount {
  /** Undamped natural frequency in Hz. */
  readonly frequency: number;
  /** Fraction of critical damping. */
  readonly damping: number;
}

export interface SurfaceDesign {
  /** r.m.s. of the broadband part of the base motion in g, vertical. */
  readonly broadband: number;
  /** Distance from joint to joint in m, and the width of what a wheel does there in s. */
  readonly pitch: number;
  readonly jointWidth: number;
  /** Peak of a joint's pulse at the base in g. */
  readonly joint: number;
  /** Single obstacles: where in m, peak at the base in g, width in s. */
  readonly bumps: readonly { readonly at: number; readonly peak: number; readonly width: number }[];
}

/** One recording; `seed` is the whole of what tells it from its sisters, besides what stands here. */
export interface RunDesign {
  readonly file: string;
  readonly surface: Surface;
  readonly condition: Condition;
  /** Place in the day's order on its surface, from 1. */
  readonly order: number;
  readonly seed: number;
  /** The ride was broken off at this distance in m. */
  readonly stopsAt?: number;
}

/** The logger's true rate in Hz (its data sheet says 350), its step in g, its range in g. */
export const logger = { rate: 349.6, nominalRate: 350, step: 0.0002, range: 8, noise: 6e-5, gain: 1.004 } as const;

/** Speed in m/s, r.m.s. scatter of a run's ln level, growth of the level from one run to the next. */
export const ride = { speed: 1.2, scatter: 0.025, drift: 0.004, wheelbase: 0.42, length: 84 } as const;

/** A joint's pulse at the castors against that at the rear wheels; relative scatter from joint to joint. */
export const castorWeight = 0.6;
export const jointSpread = 0.35;

/** Part of the sitter that moves on the pad, in kg. */
export const movingMass = 45;

/** Dynamic stiffness in N/mm of each pad under the motion of each surface; gel stiffens when it hardly moves. */
export const padStiffness: Readonly<Record<Surface, Readonly<Record<Condition, number>>>> = {
  brick: { foam: 160, gel: 130 },
  tile: { foam: 160, gel: 157 },
};

const padDamping: Readonly<Record<Surface, Readonly<Record<Condition, number>>>> = {
  brick: { foam: 0.4, gel: 0.32 },
  tile: { foam: 0.4, gel: 0.395 },
};

/** Resonances of the frame: on its tyres and castor forks, and of the seat tubes; `gain` is what each adds at its peak. */
export const frameModes: readonly (Mount & { readonly gain: number })[] = [
  { frequency: 23, damping: 0.11, gain: 1.4 },
  { frequency: 41, damping: 0.1, gain: 1.1 },
];

export const surfaces: Readonly<Record<Surface, SurfaceDesign>> = {
  brick: {
    broadband: 0.125,
    pitch: 0.1,
    jointWidth: 0.008,
    joint: 0.18,
    bumps: [
      { at: 22, peak: 0.45, width: 0.014 },
      { at: 47, peak: 0.6, width: 0.016 },
    ],
  },
  tile: {
    broadband: 0.038,
    pitch: 0.3,
    jointWidth: 0.008,
    joint: 0.1,
    bumps: [
      { at: 29, peak: 0.3, width: 0.015 },
      { at: 55, peak: 0.22, width: 0.012 },
    ],
  },
};

export const pad = (surface: Surface, condition: Condition): Mount => ({
  frequency: Math.sqrt((padStiffness[surface][condition] * 1000) / movingMass) / (2 * Math.PI),
  damping: padDamping[surface][condition],
});

const order: readonly Condition[] = ['foam', 'gel', 'gel', 'foam', 'gel', 'foam', 'foam', 'gel'];

function runsOn(surface: Surface, firstSeed: number): RunDesign[] {
  const count = { foam: 0, gel: 0 };
  return order.map((condition, index) => {
    const file = `${surface}-${condition}-${++count[condition]}.csv.gz`;
    return { file, surface, condition, order: index + 1, seed: firstSeed + index };
  });
}

/** Broken off half-way and repeated: it stands in the run sheet, and no pattern of the study takes it in. */
const stopped = { file: 'stopped-brick-gel.csv.gz', surface: 'brick', condition: 'gel', order: 5, seed: 6190, stopsAt: 41 } as const;

/**
 * A B B A, B A A B on each surface, with the broken-off ride in the midst of those on bricks. The seeds were picked: runs
 * that scatter about as designed, bands that come out near their design, and no ties of the largest samples, which
 * would look like clipping.
 */
export const runs: readonly RunDesign[] = [
  ...runsOn('brick', 6141).flatMap((run) =>
    run.order < stopped.order ? run : run.order === stopped.order ? [stopped, { ...run, order: 6 }] : { ...run, order: run.order + 1 },
  ),
  ...runsOn('tile', 8681),
];

/** Relative density of the broadband base motion at `f` Hz; not scaled. */
export const broadbandShape = (f: number): number => (f / 4) ** 2 / (1 + (f / 4) ** 2) / (1 + (f / 45) ** 3);

export interface Complex {
  readonly re: number;
  readonly im: number;
}

const divide = (a: Complex, b: Complex): Complex => {
  const size = b.re * b.re + b.im * b.im;
  return { re: (a.re * b.re + a.im * b.im) / size, im: (a.im * b.re - a.re * b.im) / size };
};

/** Transmissibility of a mount at `f` Hz: (1 + 2jzr) / (1 - r² + 2jzr), r = f / natural frequency. */
export function transmissibility({ frequency, damping }: Mount, f: number): Complex {
  const r = f / frequency;
  return divide({ re: 1, im: 2 * damping * r }, { re: 1 - r * r, im: 2 * damping * r });
}

/** The frame's response at `f` Hz to its base: 1, and what each resonance adds about its own frequency. */
export function frameResponse(f: number): Complex {
  let [re, im] = [1, 0];
  for (const { frequency, damping, gain } of frameModes) {
    const r = f / frequency;
    const own = divide({ re: 0, im: 2 * damping * r }, { re: 1 - r * r, im: 2 * damping * r });
    re += gain * own.re;
    im += gain * own.im;
  }
  return { re, im };
}

/**
 * Acceleration of a pulse at a joint or obstacle, peak 1: up, down and up again, so that the wheel ends where it began.
 * The second derivative of a Gaussian of standard deviation `width`, with the sign turned.
 */
export const pulse = (t: number, width: number): number => (1 - (t / width) ** 2) * Math.exp(-0.5 * (t / width) ** 2);

/** |Fourier transform|² of `pulse` in s². */
const pulseEnergy = (f: number, width: number): number =>
  2 * Math.PI * width ** 2 * (2 * Math.PI * f * width) ** 4 * Math.exp(-((2 * Math.PI * f * width) ** 2));

const spacing = 0.05;
const squared = ({ re, im }: Complex): number => re * re + im * im;
const shapeArea = integrate(broadbandShape, spacing, 174);

/**
 * Designed density in g²/Hz of the vertical motion on the pad while riding, without the single obstacles. The
 * joints count as pulses at random times of the same number and size (Campbell's theorem), which gives a band
 * the same mean square as their lines do.
 */
export function seatDensity(surface: Surface, condition: Condition, f: number): number {
  const { broadband, pitch, joint, jointWidth } = surfaces[surface];
  const jointsPerSecond = ride.speed / pitch;
  const axles = castorWeight ** 2 + 1;
  const base =
    (broadband ** 2 * broadbandShape(f)) / shapeArea +
    2 * jointsPerSecond * axles * (1 + jointSpread ** 2) * joint ** 2 * pulseEnergy(f, jointWidth);
  return base * squared(frameResponse(f)) * squared(transmissibility(pad(surface, condition), f));
}

function integrate(density: (f: number) => number, low: number, high: number): number {
  const steps = Math.round((high - low) / spacing);
  let sum = 0;
  for (let k = 0; k < steps; k++) sum += density(low + (k + 0.5) * spacing) * spacing;
  return sum;
}

/** Designed r.m.s. in g of a band of the vertical motion on the pad. */
export const designedBand = (surface: Surface, condition: Condition, low: number, high: number): number =>
  Math.sqrt(integrate((f) => seatDensity(surface, condition, f), low, high));

/** Designed change from foam to gel in a band: gel / foam - 1 of the r.m.s. */
export const designedChange = (surface: Surface, low: number, high: number): number =>
  designedBand(surface, 'gel', low, high) / designedBand(surface, 'foam', low, high) - 1;
