import type { ChannelFacts } from '../language/services/outside.ts';
import { read } from '../readers/read.ts';
import type { ByteSource, ReadWatch } from '../readers/recording.ts';

/** Files up to so many bytes are read whole; of larger ones only a head. */
const small = 4e6;
const head = 256 * 1024;

/**
 * The channels of a recording as `load` names them; empty for one that can't be read. Of a large text only the
 * beginning is read; large files of formats that can't be read from a part give nothing.
 */
export async function channelsOf(source: ByteSource, watch: ReadWatch): Promise<readonly ChannelFacts[]> {
  const found = await read(source.size <= small ? source : await beginningOf(source), {}, watch);
  if (!found.ok) return [];
  return found.value.channels.map(({ name, header, unit }) => ({
    name,
    ...(header === undefined ? {} : { header }),
    ...(unit === undefined || unit === '' ? {} : { unit }),
  }));
}

/** Whole lines only: half a number would be read as another. */
async function beginningOf(source: ByteSource): Promise<ByteSource> {
  const read = Uint8Array.from(await source.read(0, head));
  const end = read.lastIndexOf(0x0a) + 1;
  const bytes = end > 0 ? read.subarray(0, end) : read;
  return {
    path: source.path,
    size: bytes.length,
    read: (position, length) => Promise.resolve(bytes.subarray(position, position + length)),
  };
}
