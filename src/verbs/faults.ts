import { faultWarnings } from '../analysis/recordings/faults.ts';
import type { Warning } from '../result/result.ts';
import { runsOf } from '../values/kinds.ts';
import type { Arguments } from './verb.ts';

/** The faults of the runs behind a call's operands, as warnings of its result. */
export const faultsBehind = ({ operands }: Arguments): Warning[] =>
  faultWarnings(
    Object.values(operands)
      .flat()
      .flatMap((argument) => (argument?.type === 'value' ? runsOf(argument.value) : [])),
  );
