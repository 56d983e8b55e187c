import { success, type Result } from '../result/result.ts';
import { checkedRun, sampleFaults } from './checks/check.ts';
import { read } from './read.ts';
import type { ByteSource, ReadOptions, Recording, ReadWatch } from './recording.ts';

/** Reads a recording as `read` does; its findings begin with the faults of its samples. */
export async function readChecked(
  source: ByteSource,
  options: ReadOptions,
  watch: ReadWatch,
): Promise<Result<Recording>> {
  const found = await read(source, options, watch);
  if (!found.ok) return found;
  const recording = found.value;
  // Its parts were checked as they were read.
  if (recording.long !== undefined) return found;
  return success({ ...recording, findings: [...sampleFaults(checkedRun(recording)), ...recording.findings] });
}
