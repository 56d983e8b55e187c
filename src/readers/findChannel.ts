/** A header without the unit in brackets behind it. */
export const withoutUnit = (header: string): string => header.replace(/[\s_]*[([].*$/, '').trim();

/** Of `channels` the one of this name, else the one whose header is this text or begins with this word. */
export function findChannel<T extends { readonly name: string; readonly header?: string | undefined }>(
  channels: readonly T[],
  name: string,
): T | undefined {
  return (
    channels.find((one) => one.name === name) ??
    channels.find((one) => one.header?.trim() === name.trim()) ??
    channels.find((one) => one.header !== undefined && withoutUnit(one.header) === name) ??
    channels.find((one) => one.header?.toLowerCase().startsWith(`${name.toLowerCase()}_`))
  );
}
