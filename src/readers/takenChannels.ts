import { converterStep } from './checks/checked.ts';
import { findChannel } from './findChannel.ts';
import type { RecordedChannel, Recording } from './recording.ts';

/**
 * The channels that are taken where these are asked for: each once found, or all axes of acceleration, else all columns, where none is.
 * @param beside a channel that is taken with them
 */
export function takenChannels(
  { channels }: Pick<Recording, 'channels'>,
  asked: readonly string[],
  beside?: string,
): readonly RecordedChannel[] {
  const more = beside === undefined ? undefined : findChannel(channels, beside);
  const axes = channels.filter(({ axis }) => axis);
  const usual = axes.length > 0 ? axes : channels;
  const taken = asked.length > 0 ? asked.flatMap((name) => findChannel(channels, name) ?? []) : usual;
  return more === undefined || taken.includes(more) ? taken : [...taken, more];
}

/**
 * A recording with the samples of the channels that are taken, each with its step; the others are named alone. Its first rows, for who looks
 * at a file, are left behind: of each of hundreds of runs they would be handed on and kept.
 * @param beside as of `takenChannels`
 */
export function withSamplesOf(recording: Recording, asked: readonly string[], beside?: string): Recording {
  if (recording.long !== undefined) return recording;
  const taken = takenChannels(recording, asked, beside);
  const channels = recording.channels.map((channel) =>
    taken.includes(channel)
      ? { ...channel, step: converterStep(channel.samples) }
      : { ...channel, samples: new Float64Array(0) },
  );
  const layout = { ...recording.layout };
  delete layout.firstRows;
  return { ...recording, channels, layout };
}
