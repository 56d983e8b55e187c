import type { Output } from '../charts/output.ts';

/** Whether it is an output of this version. */
export function isOutput(data: unknown): data is Output {
  if (typeof data !== 'object' || data === null) return false;
  const { version, parts, messages } = data as Partial<Record<keyof Output, unknown>>;
  return version === 1 && Array.isArray(parts) && Array.isArray(messages);
}
