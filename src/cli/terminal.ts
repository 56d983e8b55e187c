import { visible, visibleLine } from '../result/visible.ts';

/**
 * All that the commands print goes through here, and nothing of it is obeyed by a terminal, whatever stood in a file.
 * JSON stays JSON of the same texts: its own escapes are those of {@link visible}.
 */
export const print = (text: string): void => void process.stdout.write(visible(text));

/** On standard error. */
export const complain = (text: string): void => void process.stderr.write(visible(text));

/** Whether somebody sees, as it comes, what is complained. */
export const isWatched = (): boolean => process.stderr.isTTY;

/** In place of what the line of standard error held; an empty one clears it. */
export const overwrite = (line: string): void => void process.stderr.write(`\r\u001b[K${visibleLine(line)}`);
