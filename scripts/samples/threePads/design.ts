/**
 * What the second invented study was made to show: three seat pads on two surfaces, one short ride a recording. The frame,
 * the sitter and the shape of the surfaces' broadband part are those of the first study; the rest stands here.
 */
import { broadbandShape, castorWeight, frameResponse, jointSpread, movingMass, transmissibility } from '../design.ts';
import type { Complex, Mount } from '../design.ts';

export const conditions = ['foam', 'gel', 'air'] as const;
export const surfaces = ['brick', 'tile'] as const;
export type Condition = (typeof conditions)[number];
export type Surface = (typeof surfaces)[number];

/** One recording; the seed is all that tells it from its sisters, besides what stands here. */
export interface RideDesign {
  readonly file: string;
  readonly surface: Surface;
  readonly condition: Condition;
  /** Place in the day's order on its surface, from 1. */
  readonly order: number;
  readonly seed: number;
}

/** The logger's rate in Hz, its step in g and its noise in g/√Hz; it records the vertical alone. */
export const logger = { rate: 200, step: 0.001, noise: 8e-5, gain: 1.003 } as const;

/** Lengths in s: standing, getting to the pace, riding at it, stopping, standing. */
export const parts = { before: 4, up: 1.5, pace: 25, down: 1.5, after: 2 } as const;

/**
 * Speed in m/s and its relative scatter from run to run; scatter of a run's ln level and its growth from one run to the
 * next; the power of the speed that levels go with.
 */
export const ride = { speed: 1.2, speedScatter: 0.022, scatter: 0.024, drift: 0.004, exponent: 0.5, wheelbase: 0.42 } as const;

interface SurfaceDesign {
  /** r.m.s. of the broadband part of the base motion in g. */
  readonly broadband: number;
  /** Distance from joint to joint in m, length of a joint's pulse in s, its peak at the base in g. */
  readonly pitch: number;
  readonly jointWidth: number;
  readonly joint: number;
}

export const surfaceDesigns: Readonly<Record<Surface, SurfaceDesign>> = {
  brick: { broadband: 0.12, pitch: 0.1, jointWidth: 0.008, joint: 0.17 },
  tile: { broadband: 0.045, pitch: 0.3, jointWidth: 0.008, joint: 0.1 },
};

/** Dynamic stiffness in N/mm and damping of each pad under the motion of each surface. Gel stiffens when it hardly moves. */
const pads: Readonly<Record<Surface, Readonly<Record<Condition, readonly [stiffness: number, damping: number]>>>> = {
  brick: { foam: [160, 0.4], gel: [130, 0.32], air: [95, 0.26] },
  tile: { foam: [160, 0.4], gel: [157, 0.395], air: [105, 0.28] },
};

export function padOn(surface: Surface, condition: Condition): Mount {
  const [stiffness, damping] = pads[surface][condition];
  return { frequency: Math.sqrt((stiffness * 1000) / movingMass) / (2 * Math.PI), damping };
}

/** Each row of a Williams design of three conditions beside its mirror image. */
export const order: readonly Condition[] = [
  ...(['foam', 'gel', 'air', 'air', 'gel', 'foam'] as const),
  ...(['gel', 'air', 'foam', 'foam', 'air', 'gel'] as const),
];

const firstSeed: Readonly<Record<Surface, number>> = { brick: 4100, tile: 4300 };

export const rides: readonly RideDesign[] = surfaces.flatMap((surface) =>
  order.map((condition, k) => {
    const before = order.slice(0, k).filter((one) => one === condition).length;
    const file = `${surface}-${condition}-${before + 1}.csv.gz`;
    return { file, surface, condition, order: k + 1, seed: firstSeed[surface] + k };
  }),
);

const product = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re });

/** From the base to the top of the pad, at `f` Hz. */
export const response = (surface: Surface, condition: Condition, f: number): Complex =>
  product(frameResponse(f), transmissibility(padOn(surface, condition), f));

const spacing = 0.05;

function integral(density: (f: number) => number, low: number, high: number): number {
  const steps = Math.round((high - low) / spacing);
  let sum = 0;
  for (let k = 0; k < steps; k++) sum += density(low + (k + 0.5) * spacing) * spacing;
  return sum;
}

const shapeArea = integral(broadbandShape, spacing, logger.rate / 2);

/** |Fourier transform|² in s² of a joint's pulse of peak 1. */
const pulseEnergy = (f: number, width: number): number =>
  2 * Math.PI * width ** 2 * (2 * Math.PI * f * width) ** 4 * Math.exp(-((2 * Math.PI * f * width) ** 2));

/** Designed density in g²/Hz on the pad at the nominal speed; the joints as pulses at random times (Campbell's theorem). */
function density(surface: Surface, condition: Condition, f: number): number {
  const { broadband, pitch, joint, jointWidth } = surfaceDesigns[surface];
  const pulses = (2 * ride.speed * (castorWeight ** 2 + 1) * (1 + jointSpread ** 2) * joint ** 2) / pitch;
  const { re, im } = response(surface, condition, f);
  return ((broadband ** 2 * broadbandShape(f)) / shapeArea + pulses * pulseEnergy(f, jointWidth)) * (re * re + im * im);
}

/** Designed r.m.s. in g of a band on the pad. */
export const designedBand = (surface: Surface, condition: Condition, low: number, high: number): number =>
  Math.sqrt(integral((f) => density(surface, condition, f), low, high));

/** Designed change from the foam, as a fraction: on one surface, or over both with equal weights of the logarithms. */
export function designedChange(condition: Condition, [low, high]: readonly [number, number], surface?: Surface): number {
  const on = surface === undefined ? surfaces : [surface];
  const logs = on.map((one) => Math.log(designedBand(one, condition, low, high) / designedBand(one, 'foam', low, high)));
  return Math.exp(logs.reduce((sum, value) => sum + value, 0) / on.length) - 1;
}
