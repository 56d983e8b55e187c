import type { Unit } from '../units/unit.ts';
import type { ComparisonRow, ComparisonSide } from './comparisonParts.ts';
import { excludedIn, runIn, type Scaling } from './scaling.ts';
import { spectrumIn } from './spectrum.ts';

// What a comparison tells of levels, in another unit.

/** The levels of both sides of a row told otherwise; its change is a ratio and stays. */
export const comparedLevelsIn = (row: ComparisonRow, { unit, factor }: Scaling): ComparisonRow => ({
  ...row,
  unit,
  a: row.a * factor,
  b: row.b * factor,
  aRuns: row.aRuns.map((level) => level * factor),
  bRuns: row.bRuns.map((level) => level * factor),
});

/** A side with its runs and spectra in the unit that is asked for. */
export const comparedSideIn = (side: ComparisonSide, asked: Unit): ComparisonSide => ({
  ...side,
  runs: side.runs.map((run) => runIn(run, asked)),
  spectrum: side.spectrum && (spectrumIn(side.spectrum, asked) ?? side.spectrum),
  ...excludedIn(side, asked),
});
