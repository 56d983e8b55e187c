import { success, type Result } from '../result/result.ts';
import { settingsIn, settingsOf, usualSettings, type FigureSettings } from './figureSettings.ts';
import type { SettingsFor } from './figures.ts';
import { refuse } from './messages.ts';

/** A line of the notebook's front matter. */
interface Line {
  readonly key: string;
  readonly value: string;
  readonly line: number;
}

type Some = Partial<FigureSettings>;

/** What was asked for of the figures, and which of them were asked for by name. */
export interface AskedFigures {
  readonly settingsFor: SettingsFor;
  /** Refuses where a figure that is asked for by name is none of these. */
  readonly holdTo: (stems: readonly string[]) => Result<void>;
}

/**
 * Settings of figures from a notebook's front matter (`figures: width 85 mm`; of one by its name, `figure bricks-change: width 170 mm`)
 * and from the command line, which wins.
 */
export function askedFigures(
  lines: readonly Line[],
  said: readonly (readonly [setting: string, given: string])[],
): Result<AskedFigures> {
  const byCommand = settingsOf(said);
  if (!byCommand.ok) return byCommand;
  let ofAll: Some = {};
  const ofOne = new Map<string, Some>();
  const lineOf = new Map<string, number>();
  for (const { key, value, line } of lines) {
    const stem = /^figure\s+(\S+)$/.exec(key)?.[1];
    if (key !== 'figures' && stem === undefined) continue;
    const read = settingsIn(value);
    if (!read.ok) return read;
    if (stem === undefined) ofAll = { ...ofAll, ...read.value };
    else {
      ofOne.set(stem, { ...ofOne.get(stem), ...read.value });
      lineOf.set(stem, line);
    }
  }
  return success({
    settingsFor: (stem) => ({ ...usualSettings, ...ofAll, ...ofOne.get(stem), ...byCommand.value }),
    holdTo: (stems) => {
      const unknown = [...lineOf].find(([stem]) => !stems.includes(stem));
      return unknown === undefined
        ? success(undefined)
        : refuse('figures.unknown', { name: unknown[0], line: unknown[1], known: stems });
    },
  });
}
