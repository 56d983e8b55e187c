import { settings } from '../settings.ts';
import type { Break } from './breaks.ts';
import { densest } from './losses.ts';
import type { PhasedClock } from './phases.ts';
import { blockFrom, blocksOf, expectedAt, heldBy, likelihood, quantaOf } from './quanta.ts';
import type { Block, Quanta } from './quanta.ts';

/**
 * A clock whose stamps are rounded to about a sample, whichever samples are lost: of even times i/f rounded to q each quantum
 * holds floor(f·q) samples or one more, by its phase k·f·q, and losses at random take from both alike. So the rate is the one by
 * which the counts of all quanta are likeliest. It also finds rates near a whole number of samples a quantum, at which the sum
 * of phases is next to nothing: there a few quanta hold one fewer or more, and those come evenly. Undefined where no rate
 * stands out, or where rows don't keep to it.
 * @param t stamps in s that never run backwards
 * @param quantum step that they are rounded to, in s
 * @param least rate in Hz that the true one is not below
 * @param mayBeBursts whether samples may have been delivered together
 */
export function byOccupancy(
  t: Float64Array,
  quantum: number,
  least: number,
  mayBeBursts = false,
): PhasedClock | undefined {
  const shortest = densest(t, 16);
  const most = shortest > quantum ? (16 * quantum) / (shortest - quantum) : 0;
  // Uneven sampling lets a few rows stand closer than the true rate would.
  const low = least * quantum * (1 - 1e-3);
  if (!(most > low) || most > settings.occupancy.most || low < settings.occupancy.fewest) return undefined;
  const quanta = quantaOf(t, quantum);
  const plain = likeliestBy(quanta, low, most);
  if (mayBeBursts && plain !== undefined && !isUsual(plain.blocks, plain.rate)) return undefined;
  // What a clock that drifts leaves may look like another rate with more losses.
  const drifting = mayBeBursts ? undefined : driftingBy(quanta, low, most);
  const isOther = drifting !== undefined && Math.abs(drifting.middle - (plain?.rate ?? 0)) > 2 * drifting.sway;
  const kept =
    plain === undefined || isOther
      ? undefined
      : placed(t, keptAt(quanta, refined(quanta, plain.rate, plain.length)), quantum);
  return kept ?? (drifting === undefined ? undefined : placed(t, drifting.places, quantum));
}

/** The likeliest rate of a clock that keeps it, by the shortest pieces by which one stands out. */
function likeliestBy(
  quanta: Quanta,
  low: number,
  high: number,
): (Kept & { readonly blocks: readonly Block[] }) | undefined {
  for (const length of settings.occupancy.lengths) {
    const blocks = blocksOf(quanta, length);
    const rate = blocks.length === 0 ? undefined : likeliest(blocks, low, high);
    if (rate !== undefined) return { rate, length, blocks };
  }
  return undefined;
}

/** A clock that drifts: the rate that those of its pieces lie about, how far they may, and how each piece lies. */
interface Drifting {
  readonly middle: number;
  readonly sway: number;
  readonly places: Places;
}

/** As `likeliestBy` of a clock that drifts: no one rate holds over all pieces, but each has its own, and all lie close together. */
function driftingBy(quanta: Quanta, low: number, high: number): Drifting | undefined {
  const { apart, drift, lengths } = settings.occupancy;
  const [length] = lengths;
  const step = apart / length;
  const reach = Math.ceil((drift * high) / step);
  const blocks = blocksOf(quanta, length);
  const middle = blocks.length < 2 ? undefined : likeliestAround(blocks, { low, high, step, reach });
  // Next to a whole number of samples a quantum, losses and a rate that moves look alike.
  if (middle === undefined || Math.abs(middle - Math.round(middle)) < settings.phases.near) return undefined;
  const held = heldBy(blocks);
  // Half as far apart as they were tried, so that the phase keeps within the tolerance over a piece.
  const tried = Array.from({ length: 4 * reach + 1 }, (_, k) => middle + ((k - 2 * reach) * step) / 2);
  const expected = tried.map((rate) => expectedOf(rate, held));
  const at = (from: number): Placing => {
    const block = blockFrom(quanta, from, length);
    const found = expected.map((own) => likelihood(block, own));
    let best = 0;
    for (let k = 1; k < found.length; k++) if (found[k].score > found[best].score) best = k;
    return { rate: tried[best], phase: found[best].phase };
  };
  return { middle, sway: reach * step, places: { length, at } };
}

/** Rates in samples a quantum to be tried, and how many steps from the one in the middle each piece may have its own. */
interface Tried {
  readonly low: number;
  readonly high: number;
  readonly step: number;
  readonly reach: number;
}

/** The rate around which each piece is likeliest by a rate of its own, where it stands out from all that are not beside it. */
function likeliestAround(blocks: readonly Block[], { low, high, step, reach }: Tried): number | undefined {
  const { apart, rates, aboveDrifting } = settings.occupancy;
  const count = Math.ceil((high - low) / step) + 1;
  if (count * blocks.length > rates) return undefined;
  const held = heldBy(blocks);
  const own = blocks.map(() => new Float64Array(count));
  for (let k = 0; k < count; k++) {
    const expected = expectedOf(low + k * step, held);
    for (const [b, block] of blocks.entries()) own[b][k] = likelihood(block, expected).score;
  }
  const scores = Array.from({ length: count }, (_, k) =>
    own.reduce((sum, one) => sum + Math.max(...one.subarray(Math.max(0, k - reach), k + reach + 1)), 0),
  );
  const best = Math.max(...scores);
  const [first, last] = [scores.indexOf(best), scores.lastIndexOf(best)];
  if (last - first > 2 * reach) return undefined;
  const middle = (first + last) / 2;
  const others = scores.filter((_, k) => (Math.abs(k - middle) - 2 * reach) * apart > 1);
  return best - Math.max(...others) > aboveDrifting ? low + middle * step : undefined;
}

/** The likeliest rate in samples a quantum between two, where it stands out from all that are not beside it. */
function likeliest(blocks: readonly Block[], low: number, high: number): number | undefined {
  const { apart, rates, above } = settings.occupancy;
  const step = apart / blocks[0].length;
  const count = Math.ceil((high - low) / step) + 1;
  if (count * blocks.length > rates) return undefined;
  const held = heldBy(blocks);
  const scores = Array.from({ length: count }, (_, k) => scoreOf(blocks, low + k * step, held));
  const best = scores.indexOf(Math.max(...scores));
  const others = scores.filter((_, k) => Math.abs(k - best) * apart > 1);
  return scores[best] - Math.max(...others) > above ? low + best * step : undefined;
}

/**
 * Whether pieces look as losses at random leave them: samples that were delivered together are far less likely than those of any
 * rate, whichever comes nearest.
 */
function isUsual(blocks: readonly Block[], rate: number): boolean {
  const held = heldBy(blocks);
  const expected = expectedOf(rate, held);
  const found = blocks.map((block) => likelihood(block, expected));
  const behind = found.reduce((sum, { score, usual }) => sum + usual() - score, 0);
  return behind < settings.occupancy.unusual * held.quanta;
}

type Held = ReturnType<typeof heldBy>;

const expectedOf = (rate: number, { samples, quanta }: Held): ReturnType<typeof expectedAt> =>
  expectedAt(rate, Math.min(0.999, samples / (quanta * rate)));

function scoreOf(blocks: readonly Block[], rate: number, held: Held): number {
  const expected = expectedOf(rate, held);
  return blocks.reduce((sum, block) => sum + likelihood(block, expected).score, 0);
}

/** A rate in samples a quantum, and over how many quanta the clock keeps step at it. */
interface Kept {
  readonly rate: number;
  readonly length: number;
}

/** The rate by longer and longer pieces, for as long as the clock keeps step over them. */
function refined(quanta: Quanta, coarse: number, first: number): Kept {
  let [rate, length] = [coarse, first];
  const { apart, longest } = settings.occupancy;
  const all = Math.min(quanta.at[quanta.at.length - 1] + 1, longest);
  while (length < all) {
    const tried = Math.min(2 * length, all);
    const blocks = blocksOf(quanta, tried);
    const halves = blocks.flatMap((block) => [block.subarray(0, tried >> 1), block.subarray(tried >> 1)]);
    const held = heldBy(blocks);
    const near = Array.from({ length: 25 }, (_, k) => rate + ((k - 12) * apart) / tried);
    const scores = near.map((one) => scoreOf(blocks, one, held));
    const best = scores.indexOf(Math.max(...scores));
    // Where both halves are far likelier by themselves, the clock did not keep step.
    if (blocks.length === 0 || scores[best] < scoreOf(halves, near[best], held) - 8 * halves.length) break;
    [rate, length] = [near[best], tried];
  }
  return { rate, length };
}

/** How quanta from one on lie on the clock: quantum k after it reaches from k·rate less the phase. */
interface Placing {
  readonly rate: number;
  readonly phase: number;
}

/** How quanta lie, piece by piece of so many. */
interface Places {
  readonly length: number;
  readonly at: (from: number) => Placing;
}

/** Pieces of a clock that keeps its rate. */
function keptAt(quanta: Quanta, { rate, length }: Kept): Places {
  const expected = expectedOf(rate, heldBy(blocksOf(quanta, length)));
  return { length, at: (from) => ({ rate, phase: likelihood(blockFrom(quanta, from, length), expected).phase }) };
}

/** Gives each row its place on the clock, by the phase of the quanta around it; undefined where many keep to none. */
function placed(t: Float64Array, { length, at }: Places, quantum: number): PhasedClock | undefined {
  const { tolerance } = settings.occupancy;
  const breaks: Break[] = [];
  const line = new Line();
  let [last, off, from, turns] = [0, 0, -Infinity, 0];
  let own: Placing = { rate: 0, phase: 0 };
  for (let i = 0; i < t.length; i++) {
    const k = Math.round((t[i] - t[0]) / quantum);
    if (k >= from + length) {
      const next = at(k);
      // Whole turns that bring it next to where the piece before it comes out.
      if (i > 0) turns = Math.round((k - from) * own.rate - own.phase + turns + next.phase);
      [from, own] = [k, next];
    }
    const place = (k - from) * own.rate - own.phase + turns;
    const near = Math.ceil(place - tolerance);
    const next = i === 0 ? near : Math.max(near, last + 1);
    if (i > 0 && next > last + 1) breaks.push({ row: i, reset: false, missing: next - last - 1 });
    if (next > place + own.rate + tolerance) off++;
    last = next;
    line.add(last, t[i] - t[0]);
  }
  const isKept = off <= settings.phases.off * t.length && t.length >= settings.phases.share * line.length;
  return isKept ? { rate: line.slope(), breaks } : undefined;
}

/** The least-squares line of stamps over the places of their rows. */
class Line {
  #first: number | undefined;
  #count = 0;
  #n = 0;
  #t = 0;
  #nn = 0;
  #nt = 0;
  /** From the first place to the last. */
  length = 0;

  add(place: number, stamp: number): void {
    this.#first ??= place;
    const n = place - this.#first;
    this.length = n;
    this.#count++;
    const [fromN, fromT] = [n - this.#n, stamp - this.#t];
    this.#n += fromN / this.#count;
    this.#t += fromT / this.#count;
    this.#nn += fromN * (n - this.#n);
    this.#nt += fromN * (stamp - this.#t);
  }

  /** Places a second. */
  slope(): number {
    return this.#nn / this.#nt;
  }
}
