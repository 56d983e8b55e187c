import { channelNames } from '../../values/columns.ts';
import { shockKind } from '../../values/shock.ts';
import { shockChart } from '../plots/shock.ts';
import { shockCaption } from '../words/shock.ts';
import { excludedPart } from './excluded.ts';
import { figuresTable } from './figures.ts';
import { some, type Presenter } from './kind.ts';

/** The responses over the natural frequency, and where they are largest. */
export const presentShock: Presenter<'shock'> = (value, name) => {
  const { entries, damping, set = name, excluded } = value;
  return some(
    shockChart([{ name, value }], { marks: [] }),
    figuresTable(shockCaption(set, damping), [...channelNames, ...shockKind.rows.columns], entries, value),
    excludedPart(excluded),
  );
};
