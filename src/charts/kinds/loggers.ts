import { loggersKind, responsesOf } from '../../values/loggers.ts';
import { transferChart } from '../plots/transfer.ts';
import { figuresTable } from './figures.ts';
import { some, type Presenter } from './kind.ts';

/** The sentence, the response from one logger to the other, and the figures of each channel and band. */
export const presentLoggers: Presenter<'loggers'> = (value, name, digits) => {
  const { caption, rows } = loggersKind;
  return some(
    { type: 'text', style: 'lead', text: value.sentence },
    transferChart({ name, value: responsesOf(value) }, { frequency: 'linear', marks: [] }),
    figuresTable(caption(value), [...rows.names, ...rows.columns], value.rows, value, digits),
  );
};
