import { additionalMethods } from '../../signal/exposure.ts';
import { levels as levelsOf, moments, vibrationDose } from '../../signal/levels.ts';
import { formatNumber } from '../../units/format.ts';
import { isAcceleration } from '../../analysis/recordings/dimensions.ts';
import { exposureOf } from '../../analysis/spectra/exposure.ts';
import { valueOf } from '../arguments.ts';
import { sampleCount, type Channel, type Run } from '../../values/run.ts';
import { whyUneven } from '../../analysis/recordings/runs.ts';
import { runningOf } from './running.ts';
import { alsoOf, together, type RunWarning } from '../../analysis/together.ts';
import type { LevelsRow } from '../../values/levels.ts';
import { answer, type Verb } from '../verb.ts';

export const levels: Verb = {
  form: {
    verb: 'levels',
    summary: 'Gives the single-number levels of each run and channel.',
    help: 'Mean; r.m.s., peak, peak to peak, crest factor, kurtosis and skewness of the signal with its mean removed (so gravity is not counted as vibration); `total_rms` with the mean kept; the levels that |x − mean| stays below 99 % and 99.9 % of the time; the vibration dose value (∫a⁴dt)^¼ in m/s^1.75 and the largest running r.m.s. over 1 s, MTVV, with the end of that second (ISO 2631-1:1997, 6.3.1 and 6.3.2; of the unweighted signal unless it was weighted). Kurtosis is 3 for a Gaussian signal, 1.5 for a sine. A peak grows with the length of a run: compare percentiles or r.m.s. instead. Of weighted acceleration, a crest factor above 9, MTVV/a_w above 1.5 or VDV/(a_w T^¼) above 1.75 is said, for which the standard asks to look at MTVV and VDV too (6.2.1, 6.3.3); the comfort ranges of ISO 2631-1 and the action and limit values of Directive 2002/44/EC stand beside as context.',
    operands: [{ name: 'runs', doc: 'The runs.', accepts: [{ type: 'value', kinds: ['runs'] }] }],
    options: [],
    gives: 'levels',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz" | channel z | trim 10..70 s\nlevels foam',
      'foam = load "raw/brick-foam-*.csv.gz" | trim 10..70 s\nlevels (weight foam wd wd wk)',
    ],
  },
  evaluate(given, { watch }) {
    const runs = valueOf(given, 'runs', 'runs');
    const uneven = whyUneven(runs);
    if (uneven !== undefined) return uneven;
    const rows: LevelsRow[] = [];
    const scratch = new Float64Array(Math.max(...runs.runs.map(sampleCount)));
    runs.runs.forEach((run, index) => {
      watch.progress(index / runs.runs.length, `levels of ${run.label}`);
      for (const channel of run.channels) rows.push(levelsRow(run, channel, scratch));
    });
    const exposure = exposureOf(rows);
    return answer(
      { kind: 'levels', set: runs.set, rows, ...(exposure === undefined ? {} : { exposure }) },
      together(rows.flatMap(additionalMethodsOf)),
    );
  },
};

/** What is left of a mean that was taken out is rounding, below this share of the r.m.s. */
const rounding = 1e-13;

/** s; the span of the MTVV. */
const mtvvSpan = 1;

function levelsRow(run: Run, channel: Channel, scratch: Float64Array): LevelsRow {
  const found = levelsOf(channel.samples, scratch);
  const span = Math.round(mtvvSpan * run.rate);
  const longest = Math.max(...run.stretches.map(({ from, to }) => to - from));
  const transient = span >= 1 && longest >= span ? runningOf(run, channel, span) : undefined;
  return {
    run,
    channel,
    mean: Math.abs(found.mean) < rounding * found.rms ? 0 : found.mean,
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
    mtvv: transient?.largest,
    mtvvAt: transient === undefined ? undefined : transient.largestAt - run.stretches[0].start,
    duration: channel.samples.length / run.rate,
  };
}

/** Weightings of the whole body, which ISO 2631-1 is about. */
const wholeBody = ['Wk', 'Wd', 'Wc', 'We', 'Wj'];

/** What of a weighted signal calls for more than its r.m.s., in one sentence. */
function additionalMethodsOf(row: LevelsRow): RunWarning[] {
  const { run, channel, rms, peak, mtvv, vdv, duration } = row;
  if (!wholeBody.includes(channel.weighting ?? '') || vdv === undefined || !(rms > 0)) return [];
  const { crest, transient, dose } = additionalMethods({
    rms,
    peak,
    greatestRunning: mtvv ?? 0,
    dose: vdv / channel.unit.factor,
    seconds: duration,
  });
  const signs = [
    crest.calledFor ? `the crest factor ${formatNumber(crest.value, 3)} is above 9` : '',
    transient.calledFor ? `MTVV/a_w ${formatNumber(transient.value, 3)} is above 1.5` : '',
    dose.calledFor ? `VDV/(a_w T^¼) ${formatNumber(dose.value, 3)} is above 1.75` : '',
  ].filter((sign) => sign !== '');
  if (signs.length === 0) return [];
  return [
    {
      code: 'levels.additional',
      of: `${run.label}, ${channel.name}`,
      alike: [crest, transient, dose].map(({ calledFor }) => calledFor).join(),
      tell: (others) => ({
        code: 'levels.additional',
        message: `${run.label}, ${channel.name}: ${signs.join(' and ')}, so the weighted r.m.s. alone may say too little: read MTVV and VDV too (ISO 2631-1:1997, 6.2.1 and 6.3.3).${alsoOf(others)}`,
      }),
    },
  ];
}
