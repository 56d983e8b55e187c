import { runningCaption } from '../words/levels.ts';
import { channelNames } from '../../values/columns.ts';
import { runningKind } from '../../values/running.ts';
import { runningChart } from '../plots/running.ts';
import { figuresTable } from './figures.ts';
import { some, type Presenter } from './kind.ts';

/** The level as it went, and where it was largest. */
export const presentRunning: Presenter<'running'> = (value, name, digits) => {
  const { entries, over, set = name } = value;
  return some(
    runningChart([{ name, value }], {}),
    figuresTable(runningCaption(set, over), [...channelNames, ...runningKind.rows.columns], entries, value, digits),
  );
};
