import { success, type Result } from '../../result/result.ts';
import { assemble } from '../assemble.ts';
import { refuse } from '../messages.ts';
import { openFile, piecesOf, refusedBy } from '../pieces.ts';
import type { ByteSource, LongPart, LongRecording, ReadOptions, Recording, ReadWatch } from '../recording.ts';
import { partFormat } from './partFormat.ts';

/** Gives the parts of a recording again, each as a recording by itself. */
export interface Parts {
  read(part: LongPart, watch: ReadWatch): Promise<Result<Recording>>;
}

/** The parts of a recording that was read before. Refuses a file that is not as it was then. */
export async function partsOf(
  source: ByteSource,
  { sizes }: LongRecording,
  options: ReadOptions,
): Promise<Result<Parts>> {
  const { path, size } = source;
  const opened = await openFile(path, size, piecesOf(source));
  if (!opened.ok) return opened;
  const format = await partFormat(opened.value, options, sizes);
  if (format === undefined) return refuse('file-changed', { path });
  return success({
    async read({ from, to, line, rows }, watch) {
      const pieces = piecesOf(source, from, to);
      const read = await format.read({ pieces, size: to - from, line }, watch);
      if (watch.cancelled()) return refuse('cancelled', { path });
      const failure = pieces.failure() ?? refusedBy(source);
      if (failure) return failure;
      if (!read.ok) return read;
      const recording = assemble(read.value.reading, options);
      if (recording.ok && recording.value.channels.some(({ samples }) => samples.length !== rows))
        return refuse('file-changed', { path });
      return recording;
    },
  });
}
