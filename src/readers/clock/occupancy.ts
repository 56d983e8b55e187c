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
  for (const length of settings.occupancy.lengths) {
    const blocks = blocksOf(quanta, length);
    const rate = blocks.length === 0 ? undefined : likeliest(blocks, low, most);
    if (rate === undefined) continue;
    if (mayBeBursts && !isUsual(blocks, rate)) return undefined;
    return placed(t, quanta, refined(quanta, rate, length), quantum);
  }
  return undefined;
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

/** Gives each row its place on the clock, by the phase of the quanta around it; undefined where many keep to none. */
function placed(t: Float64Array, quanta: Quanta, { rate, length }: Kept, quantum: number): PhasedClock | undefined {
  const { tolerance } = settings.occupancy;
  const expected = expectedOf(rate, heldBy(blocksOf(quanta, length)));
  const breaks: Break[] = [];
  const line = new Line();
  let [last, off, from, shift] = [0, 0, -Infinity, 0];
  for (let i = 0; i < t.length; i++) {
    const k = Math.round((t[i] - t[0]) / quantum);
    if (k >= from + length) {
      from = k;
      const { phase } = likelihood(blockFrom(quanta, from, length), expected);
      // As of quanta counted from the first one, and of whole turns those that bring it next to what it was.
      const begins = phase + from * rate;
      shift = i === 0 ? begins : begins + Math.round(shift - begins);
    }
    const place = k * rate - shift;
    const near = Math.ceil(place - tolerance);
    const next = i === 0 ? near : Math.max(near, last + 1);
    if (i > 0 && next > last + 1) breaks.push({ row: i, reset: false, missing: next - last - 1 });
    if (next > place + rate + tolerance) off++;
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
