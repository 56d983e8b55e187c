import { trimStretches, type Stretch } from '../../signal/stretch.ts';
import { touches } from '../faults.ts';
import { operand, si, siOf, valueOf } from '../arguments.ts';
import { extent, type Run } from '../../values/run.ts';
import { answer, type Arguments, type Verb } from '../verb.ts';
import { refuse } from '../../result/result.ts';

export const trim: Verb = {
  passesFaults: true,
  form: {
    verb: 'trim',
    summary: 'Keeps a stretch of each run.',
    help: 'Keeps the samples with from <= t < to, where t is counted from the first sample of each run as it is given. Instead of a range, `from`, `to` and `length` may be given. A stretch that reaches outside a run is an error that states how long the run is.',
    operands: [
      { name: 'runs', doc: 'The runs to trim.', accepts: [{ type: 'value', kinds: ['runs'] }] },
      {
        name: 'stretch',
        doc: 'The stretch to keep, as in `5..80 s`.',
        accepts: [{ type: 'range', dimension: 'time' }],
        optional: true,
      },
    ],
    options: [
      {
        keyword: 'from',
        doc: 'Start of the stretch.',
        accepts: [{ type: 'quantity', dimension: 'time', least: 0 }],
        default: '0 s',
      },
      {
        keyword: 'to',
        doc: 'End of the stretch.',
        accepts: [{ type: 'quantity', dimension: 'time', above: 0 }],
        default: 'the end of the run',
      },
      {
        keyword: 'length',
        doc: 'Length of the stretch.',
        accepts: [{ type: 'quantity', dimension: 'time', above: 0 }],
      },
    ],
    gives: 'runs',
    examples: [
      'foam = load "raw/brick-foam-*.csv.gz"\ntrim foam 10..70 s',
      'foam = load "raw/brick-foam-*.csv.gz"\ntrim foam from 10 s length 60 s',
    ],
  },
  evaluate(given) {
    const runs = valueOf(given, 'runs', 'runs');
    const asked = askedStretch(given);
    if ('message' in asked) return refuse(asked.code, asked.message, asked.at);
    const kept: Run[] = [];
    for (const run of runs.runs) {
      const whole = extent(run);
      const from = asked.from ?? (asked.to !== undefined && asked.length !== undefined ? asked.to - asked.length : 0);
      const to = asked.to ?? (asked.length !== undefined ? from + asked.length : whole);
      // One sample of grace: a run of 85 s may end a hair short of it on its own clock.
      if (from < 0 || to > whole + 1 / run.rate || from >= whole) {
        return refuse(
          'trim.outside',
          `${run.label} runs from 0 to ${seconds(whole)}, and ${seconds(from)} to ${seconds(to)} reaches outside it.`,
          asked.at,
        );
      }
      const cut = cutRun(run, from, to);
      if (cut === undefined)
        return refuse(
          'trim.empty',
          `No sample of ${run.label} lies between ${seconds(from)} and ${seconds(to)}.`,
          asked.at,
        );
      kept.push(cut);
    }
    return answer({ ...runs, runs: kept });
  },
};

interface Asked {
  readonly from: number | undefined;
  readonly to: number | undefined;
  readonly length: number | undefined;
  readonly at: string;
}

function askedStretch(given: Arguments): Asked | { code: string; message: string; at: string } {
  const range = operand(given, 'stretch');
  const [from, to, length] = ['from', 'to', 'length'].map((name) => siOf(given, name));
  const count = [from, to, length].filter((one) => one !== undefined).length;
  if (range?.type === 'range') {
    if (count > 0)
      return { code: 'trim.twice', message: 'Give the stretch once: a range, or from, to and length.', at: 'stretch' };
    return { from: si(range.from), to: si(range.to), length: undefined, at: 'stretch' };
  }
  if (count === 0)
    return {
      code: 'operand.missing',
      message: 'trim needs the stretch to keep, as in "trim runs 5..80 s".',
      at: 'runs',
    };
  if (count === 3)
    return {
      code: 'trim.twice',
      message: 'Two of from, to and length settle the stretch: leave one out.',
      at: 'length',
    };
  const at = from !== undefined ? 'from' : to !== undefined ? 'to' : 'length';
  if (from !== undefined && to !== undefined && from >= to) {
    return {
      code: 'range.backward',
      message: `The stretch ends (${seconds(to)}) before it begins (${seconds(from)}).`,
      at,
    };
  }
  return { from, to, length, at };
}

/** The run between two times from its first sample; its samples are views of the run's own. */
export function cutRun(run: Run, from: number, to: number): Run | undefined {
  const origin = run.stretches[0].start;
  const kept =
    run.times === undefined
      ? trimStretches(run.stretches, run.rate, origin + from, origin + to)
      : timedStretches(run.stretches, run.times, origin + from, origin + to);
  if (kept.length === 0) return undefined;
  const first = kept[0].from;
  const last = kept[kept.length - 1].to;
  return {
    ...run,
    channels: run.channels.map((channel) => ({ ...channel, samples: channel.samples.subarray(first, last) })),
    stretches: kept.map((stretch) => ({ ...stretch, from: stretch.from - first, to: stretch.to - first })),
    start: kept[0].start,
    untrimmed: run.untrimmed ?? run,
    findings: run.findings.filter((finding) => touches(finding, origin + from, origin + to)),
    ...(run.times === undefined ? {} : { times: run.times.subarray(first, last) }),
    history: [...run.history, `trim ${seconds(from)} to ${seconds(to)}`],
  };
}

/** As `trimStretches`, by the readings' own times. */
function timedStretches(stretches: readonly Stretch[], times: Float64Array, begin: number, end: number): Stretch[] {
  return stretches.flatMap(({ from, to }) => {
    let first = from;
    while (first < to && times[first] < begin) first++;
    let last = first;
    while (last < to && times[last] < end) last++;
    return last > first ? [{ from: first, to: last, start: times[first] }] : [];
  });
}

const seconds = (time: number): string => `${Number(time.toFixed(3))} s`;
