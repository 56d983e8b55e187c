import { isNotebookName, isRecordName } from '../result/fileNames.ts';
import type { Refused } from '../result/result.ts';
import { refuse } from './messages.ts';
import { headLength, isRecordingFile, isRecordingPath } from './recordings.ts';

/**
 * Refuses to write over a file that is a notebook, a record or a recording by its name and its head, for whoever can't ask
 * which files a notebook reads. A table of numbers looks like a recording, too: one that begins with the same line is an
 * earlier save of what is written.
 *
 * @param found the first bytes of the file that is there; none where it can't be read
 * @param content what is to be written
 */
export function refusedKind(path: string, found: Uint8Array, content: Uint8Array): Refused | undefined {
  if (isNotebookName(path)) return refuse('write.kept', { path, as: 'any notebook' });
  if (isRecordName(path)) return refuse('write.kept', { path, as: 'record' });
  // What can't be looked into, as a file of many GB, is judged by its name.
  const isRaw = found.length === 0 ? isRecordingPath(path) : isRecordingFile(path, found);
  if (!isRaw || firstLine(found) === firstLine(content)) return undefined;
  return refuse('write.kept', { path, as: 'source' });
}

const firstLine = (bytes: Uint8Array): string =>
  new TextDecoder().decode(bytes.subarray(0, headLength)).split(/\r?\n/, 1)[0];
