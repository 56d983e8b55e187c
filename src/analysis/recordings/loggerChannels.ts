import { success, type Result } from '../../result/result.ts';
import type { CommonStretch } from '../../signal/alongClock.ts';
import type { ClockedSignal, TwoClocks } from '../../signal/clocks.ts';
import { twoClocks } from '../../signal/twoClocks.ts';
import { bandLimited } from '../../signal/bandLimit.ts';
import { piecesOf } from '../../signal/stretch.ts';
import { sameDimension } from '../../units/dimension.ts';
import type { LoggersRow } from '../../values/loggers.ts';
import type { TransferEntry } from '../../values/transfer.ts';
import { signalsOf, type Run, type Signal } from '../../values/run.ts';
import { refuse } from '../messages/loggers.ts';

/** A logger as the text calls it, with its one run at a uniform rate. */
export interface Logger {
  readonly name: string;
  readonly run: Run;
}

/** A channel that both loggers have, with either signal on its own clock as both are compared. */
export interface SharedChannel {
  readonly a: Signal;
  readonly b: Signal;
  readonly onA: ClockedSignal;
  readonly onB: ClockedSignal;
}

/** What B's samples are multiplied by to be in A's unit. */
export const scaleOf = ({ a, b }: SharedChannel): number => b.unit.factor / a.unit.factor;

/** A channel with both signals on A's clock, and what comes of it. */
export interface HeldChannel extends SharedChannel {
  readonly pairs: readonly CommonStretch[];
  readonly response: TransferEntry;
  readonly rows: readonly LoggersRow[];
}

/** Rates that differ by less are one rate but for their clocks. */
const sameRate = 0.01;
/** Share of the lower rate up to which all is kept. */
const passed = 0.42;

/** The channels of one name; refused where there is none, and where one measures different things. */
export function sharedChannels(a: Logger, b: Logger): Result<readonly SharedChannel[]> {
  const [inA, inB] = [a, b].map(({ run }) => signalsOf(run));
  const onto = commonRate(a.run, b.run);
  const shared = inA.flatMap((signal) => {
    const other = inB.find(({ name }) => name === signal.name);
    return other === undefined ? [] : [{ a: signal, b: other }];
  });
  if (shared.length === 0) {
    const [ofA, ofB] = [inA, inB].map((signals) => signals.map(({ name }) => name));
    return refuse('loggers.channels', { a: a.name, b: b.name, ofA, ofB }, 'b');
  }
  const odd = shared.find((one) => !sameDimension(one.a.unit.dimension, one.b.unit.dimension));
  if (odd === undefined)
    return success(
      shared.map((one) => ({ ...one, onA: clocked(a.run, one.a, onto), onB: clocked(b.run, one.b, onto) })),
    );
  const [inUnitA, inUnitB] = [odd.a, odd.b].map(({ unit }) => unit.symbol);
  return refuse('loggers.units', { a: a.name, b: b.name, channel: odd.a.name, inA: inUnitA, inB: inUnitB }, 'b');
}

/** The rate at which both are compared: the lower one. */
export const commonRate = (a: Run, b: Run): number => Math.min(a.rate, b.rate);

/**
 * A signal on its own clock, what the lower rate can't hold taken out.
 * @param onto the lower rate in Hz
 */
function clocked({ rate, stretches }: Run, { samples }: Signal, onto: number): ClockedSignal {
  const pieces = piecesOf(samples, stretches).map((piece, s) => ({ samples: piece, start: stretches[s].start }));
  if (rate <= onto * (1 + sameRate)) return { rate, pieces };
  const [from, to] = [passed, 0.5].map((share) => (share * onto) / rate);
  return { rate, pieces: pieces.map((piece) => ({ ...piece, samples: bandLimited(piece.samples, from, to) })) };
}

/** A pair of channels, and what their samples tell of the clocks. */
export interface ChannelClocks extends TwoClocks {
  readonly channel: string;
}

/**
 * How B's clock goes against A's, by the channel whose delays scatter least. Refused where no channel of both has anything in
 * common, with a word where an axis goes with another one.
 * @param shared the channels of one name
 */
export function clocksOf(a: Logger, b: Logger, shared: readonly SharedChannel[]): Result<ChannelClocks> {
  const found = shared.flatMap((pair): ChannelClocks[] => {
    const clocks = twoClocks(pair.onA, pair.onB);
    return clocks === undefined ? [] : [{ ...clocks, channel: pair.a.name }];
  });
  const best = found.reduce<ChannelClocks | undefined>(
    (least, one) => (least === undefined || isSurer(one, least) ? one : least),
    undefined,
  );
  if (best !== undefined) return success(best);
  for (const from of shared)
    for (const to of shared)
      if (from !== to && twoClocks(from.onA, to.onB) !== undefined)
        return refuse('loggers.crossed', { a: a.name, b: b.name, from: from.a.name, to: to.b.name }, 'b');
  return refuse('loggers.unrelated', { a: a.name, b: b.name }, 'b');
}

/** The error of a line through more stretches is known better; among as many the smaller counts. */
const isSurer = (one: TwoClocks, other: TwoClocks): boolean =>
  one.scatter / Math.sqrt(one.stretches) < other.scatter / Math.sqrt(other.stretches);
