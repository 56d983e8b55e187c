import { levels as levelsOf, moments, vibrationDose } from '../signal/levels.ts';
import { isAcceleration } from './dimensions.ts';
import { valueOf } from './given.ts';
import { pieces, sampleCount, whyUneven } from './runs.ts';
import type { Channel, LevelsRow, Run } from './values.ts';
import { answer, type Verb, type Warning } from './verb.ts';

export const levels: Verb = {
  form: {
    verb: 'levels',
    summary: 'Gives the single-number levels of each run and channel.',
    help: 'Mean; r.m.s., peak, crest factor and kurtosis of the signal with its mean removed (so gravity is not counted as vibration); `total_rms` with the mean kept; the vibration dose value (∫a⁴dt)^¼ in m/s^1.75 (ISO 2631-1:1997, 6.3.2; of the unweighted signal unless it was weighted). Kurtosis is 3 for a Gaussian signal, 1.5 for a sine. A peak grows with the length of a run: compare percentiles or r.m.s. instead.',
    operands: [{ name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] }],
    options: [],
    gives: 'levels',
    examples: ['foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nlevels foam'],
  },
  evaluate(given, { watch }) {
    const runs = valueOf(given, 'runs', 'runs');
    const uneven = whyUneven(runs);
    if (uneven !== undefined) return uneven;
    const warnings: Warning[] = [];
    const rows: LevelsRow[] = [];
    const scratch = new Float64Array(Math.max(...runs.runs.map(sampleCount)));
    runs.runs.forEach((run, index) => {
      watch.progress(index / runs.runs.length, `levels of ${run.label}`);
      for (const channel of run.channels) rows.push(levelsRow(run, channel, scratch));
    });
    return answer({ kind: 'levels', set: runs.set, rows }, warnings);
  },
};

function levelsRow(run: Run, channel: Channel, scratch: Float64Array): LevelsRow {
  const found = levelsOf(channel.samples, scratch);
  return {
    run,
    channel,
    mean: found.mean,
    rms: found.rms,
    totalRms: found.totalRms,
    peak: found.peak,
    peakToPeak: found.peakToPeak,
    crestFactor: found.crest ?? undefined,
    kurtosis: found.kurtosis ?? undefined,
    skewness: found.skewness ?? undefined,
    vdv: isAcceleration(channel.unit)
      ? vibrationDose(moments(channel.samples), run.rate, channel.unit.factor)
      : undefined,
    percentile99: found.p99,
    percentile999: found.p999,
    mtvv: undefined,
    mtvvAt: undefined,
    duration: pieces(run, channel).reduce((sum, piece) => sum + piece.length, 0) / run.rate,
  };
}
