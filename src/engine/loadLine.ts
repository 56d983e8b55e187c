import type { ReadOptions } from '../readers/recording.ts';

/** The `load` statement for files, with the options that were stated by hand, in the words of the language. */
export function loadLine(paths: readonly string[], given: ReadOptions): string {
  const quoted = (text: string): string => `"${text.replace(/\t/g, '\\t')}"`;
  const words = [`load ${paths.map(quoted).join(', ')}`];
  for (const [name, text] of Object.entries(given.channels ?? {})) words.push(`channels ${name}=${quoted(text)}`);
  if (given.time !== undefined) words.push(`time ${quoted(given.time)}`);
  if (given.unit !== undefined) words.push(`unit ${given.unit}`);
  if (given.rate !== undefined) words.push(`rate ${given.rate} Hz`);
  if (given.delimiter !== undefined) words.push(`delimiter ${quoted(given.delimiter)}`);
  if (given.decimal !== undefined) words.push(`decimal ${quoted(given.decimal)}`);
  if (given.skip !== undefined) words.push(`skip ${given.skip}`);
  if (given.scale !== undefined) words.push(`scale ${given.scale}`);
  if (given.sensors !== undefined) words.push(`sensor ${given.sensors.map(quoted).join(', ')}`);
  if (given.sentinels !== undefined) words.push(`sentinel ${given.sentinels.join(', ')}`);
  if (given.comment !== undefined) words.push(`comment ${given.comment}`);
  if (given.clock !== undefined) words.push(`clock ${quoted(given.clock)}`);
  if (given.timezone !== undefined) words.push(`timezone ${quoted(given.timezone)}`);
  return words.join(' ');
}
