import type { Warning } from '../../result/result.ts';
import type { Pair } from '../../signal/transfer.ts';
import type { LoggersValue } from '../../values/loggers.ts';
import { tell } from '../messages/loggers.ts';
import type { ChannelClocks, HeldChannel } from './loggerChannels.ts';

/** A stretch farther off the line than so many times the scatter, and than a twelfth of a period at the top of the bands (engineering choice). */
const farFrom = 6;
const mostOfPeriod = 1 / 12;
/** A channel that goes with another one rather than with its namesake: engineering choices. */
const surelyAlike = 0.5;
const timesAsMuch = 2;
/** Less of a band in common is no ratio of sensitivities (engineering choice). */
const leastInCommon = 0.9;

/**
 * What makes the figures of two loggers doubtful.
 * @param held every channel of both
 */
export function loggerDoubts(
  { a, b, rows }: LoggersValue,
  held: readonly HeldChannel[],
  { farthest, scatter }: ChannelClocks,
): Warning[] {
  const top = Math.max(...rows.map(({ to }) => to));
  const isFar = Math.abs(farthest.by) > Math.max(farFrom * scatter, mostOfPeriod / top);
  const wander = isFar ? [tell('loggers.wander', { b: b.name, ...farthest, scatter })] : [];
  const turned = held.flatMap((channel) => turnedTo(channel, held, [a.name, b.name]) ?? []);
  const channels = held.filter(({ pairs }) => correlation(pairs, pairs) < -surelyAlike).map((one) => one.a.name);
  const reversed = channels.length === 0 ? [] : [tell('loggers.reversed', { b: b.name, channels })];
  const incoherent = rows
    .filter(({ coherence }) => coherence < leastInCommon)
    .map(({ channel, from, to, coherence }) => tell('loggers.incoherent', { channel, from, to, coherence }));
  return [...wander, ...turned, ...reversed, ...incoherent];
}

function turnedTo(channel: HeldChannel, held: readonly HeldChannel[], [a, b]: readonly string[]): Warning | undefined {
  const own = Math.abs(correlation(channel.pairs, channel.pairs));
  const other = held.find((one) => {
    const alike = one === channel ? 0 : Math.abs(correlation(channel.pairs, one.pairs));
    return alike > surelyAlike && alike > timesAsMuch * own;
  });
  return other && tell('loggers.turned', { a, b, from: channel.a.name, to: other.b.name });
}

/** The correlation coefficient of the inputs of some stretches with the outputs of others at the same times. */
function correlation(inputs: readonly Pair[], outputs: readonly Pair[]): number {
  let [xx, yy, xy] = [0, 0, 0];
  inputs.forEach(({ input }, s) => {
    const { output } = outputs[s];
    const [x, y] = [input, output].map((samples) => samples.reduce((sum, value) => sum + value, 0) / samples.length);
    for (let i = 0; i < input.length; i++) {
      xx += (input[i] - x) ** 2;
      yy += (output[i] - y) ** 2;
      xy += (input[i] - x) * (output[i] - y);
    }
  });
  return xx > 0 && yy > 0 ? xy / Math.sqrt(xx * yy) : 0;
}
