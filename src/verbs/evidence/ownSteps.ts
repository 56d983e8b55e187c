import type { FiguresOf, Figures } from '../../analysis/evidence/figures.ts';
import { weightedRun } from '../../analysis/evidence/weightedSides.ts';
import { whyTooBroken, type WeightingName } from '../../analysis/conditioning/weight.ts';
import { evenly } from '../../analysis/recordings/uniformRate.ts';
import { densityOf } from '../../analysis/spectra/density.ts';
import { bareLevels } from '../../analysis/spectra/levels.ts';
import { spectrumOf } from '../../analysis/spectra/spectrum.ts';
import { together } from '../../analysis/together.ts';
import type { LevelsRow } from '../../values/levels.ts';
import type { Channel, Run } from '../../values/run.ts';
import type { SpectrumEntry } from '../../values/spectrum.ts';
import type { WindowValue } from '../../values/window.ts';
import { answer, valueOf, type Arguments, type Context, type OfRun, type OwnStep, type Verb } from '../verb.ts';

// Steps that a comparison takes each of its runs through by itself: no words of the language.

/** Runs at a uniform rate. */
export const evened = ownStep(['evened'], 'runs', (given) => evenly(valueOf(given, 'runs', 'runs'), 'compare'));

/** Runs at a uniform rate with each signal weighted that can be; refused of those that are too broken. */
export const weightedBy = (metric: WeightingName): OwnStep =>
  ownStep(['weighted', metric], 'runs', (given) => {
    const runs = valueOf(given, 'runs', 'runs');
    for (const run of runs.runs) {
      const refusal = whyTooBroken(run, [metric], 'runs');
      if (refusal !== undefined) return refusal;
    }
    const found = runs.runs.map((run) => weightedRun(run, metric));
    const warnings = together(found.flatMap((one) => one.warnings));
    return answer({ ...runs, runs: found.map(({ run }) => run) }, warnings);
  });

/** Densities of the runs, without what is made of them for a reader. */
export const densitiesBy = (window: WindowValue): OwnStep =>
  ownStep(['densities', window], 'spectrum', (given, { watch }) =>
    spectrumOf(valueOf(given, 'runs', 'runs'), { window, bare: true }, watch),
  );

/** Levels of the runs, likewise. */
export const plainLevels = ownStep(['levels'], 'levels', (given) => answer(bareLevels(valueOf(given, 'runs', 'runs'))));

function ownStep(by: readonly unknown[], gives: 'runs' | 'spectrum' | 'levels', evaluate: Verb['evaluate']): OwnStep {
  const runs = { name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] } as const;
  const form = { verb: 'compare', summary: '', help: '', operands: [runs], options: [], gives, examples: [] };
  return { by, verb: { each: 'runs', form, evaluate } };
}

/** What a comparison takes of each channel that it is given, from what the steps gave of its runs; undefined where none were made. */
export function figuresIn({ operands, options }: Arguments, { ofRuns }: Context): FiguresOf | undefined {
  if (ofRuns === undefined) return undefined;
  const found = new Map<Channel, Figures>();
  for (const argument of [...Object.values(operands), ...Object.values(options)].flat())
    if (argument?.type === 'value' && argument.value.kind === 'runs')
      for (const run of argument.value.runs) addFigures(found, run, ofRuns.get(run));
  return found;
}

function addFigures(all: Map<Channel, Figures>, { channels }: Run, made: OfRun | undefined): void {
  if (made === undefined) return;
  const { value, told } = made;
  const [evened = [], weighted = []] = told.slice(0, -1);
  const figures =
    value.kind === 'spectrum'
      ? value.entries.map((entry) => ({ ...ofChannel(entry), density: densityOf(entry) }))
      : value.kind === 'levels'
        ? value.rows.map((row) => ({ ...ofChannel(row), levels: signalLevels(row) }))
        : [];
  channels.forEach((channel, k) => all.set(channel, { ...figures[k], evened, weighted }));
}

const ofChannel = ({ run, channel }: SpectrumEntry | LevelsRow): Pick<Figures, 'run' | 'channel'> => ({ run, channel });

const signalLevels = ({
  rms,
  percentile99,
  percentile999,
  vdv,
  powers = [],
}: LevelsRow): NonNullable<Figures['levels']> => ({
  rms,
  p99: percentile99,
  p999: percentile999,
  dose: vdv,
  powers,
});
