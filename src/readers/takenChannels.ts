import { converterStep } from './checks/checked.ts';
import { findChannel } from './findChannel.ts';
import type { RecordedChannel, Recording } from './recording.ts';

/** The channels that are taken where these are asked for: each once found, or all axes of acceleration, else all columns, where none is. */
export function takenChannels(
  { channels }: Pick<Recording, 'channels'>,
  asked: readonly string[],
): readonly RecordedChannel[] {
  if (asked.length > 0) return asked.flatMap((name) => findChannel(channels, name) ?? []);
  const axes = channels.filter(({ axis }) => axis);
  return axes.length > 0 ? axes : channels;
}

/** A recording with the samples of the channels that are taken, each with its step; the others are named alone. */
export function withSamplesOf(recording: Recording, asked: readonly string[]): Recording {
  const taken = takenChannels(recording, asked);
  const channels = recording.channels.map((channel) =>
    taken.includes(channel)
      ? { ...channel, step: converterStep(channel.samples) }
      : { ...channel, samples: new Float64Array(0) },
  );
  return { ...recording, channels };
}
