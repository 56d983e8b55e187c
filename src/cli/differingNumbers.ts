import type { NumberCheck } from '../engine/proseNumbers.ts';
import type { OpenNotebook } from './notebookFile.ts';

/** A line for each number of the prose that does not agree with the results, or can't be told. */
export const differingNumbers = ({ path, numbers }: OpenNotebook, found: readonly NumberCheck[]): readonly string[] =>
  found.flatMap((one, at) =>
    one.state === 'differs' || one.state === 'wrong' ? [`${path}:${numbers[at].line}: ${one.message.message}\n`] : [],
  );
