import { sheetNumber } from '../../readers/sheet.ts';
import { covariateSensitivity, type Covariate } from '../../statistics/covariate.ts';
import type { CompareOptions, Levels } from '../../statistics/comparison.ts';
import { formatNumber } from '../../units/format.ts';
import { parseUnit } from '../../units/parse.ts';
import type { Side, Sides } from './sides.ts';
import { percentText, signedPercentText } from '../../analysis/percents.ts';
import { extent, type Run } from '../../values/run.ts';
import { bareHeader } from '../../analysis/recordings/sheetFile.ts';
import type { Warning } from '../../result/result.ts';

/** Thresholds beyond which two sides were not measured alike (engineering choices). */
const durationsDiffer = 0.1;
const ratesDiffer = 0.005;
const conditionsDiffer = 0.02;
/** Speeds so far apart are not compared at all. */
const speedsForbid = 0.1;

export interface Differences {
  readonly warnings: readonly Warning[];
  /** Reasons that forbid a verdict, as clauses. */
  readonly guards: readonly string[];
}

/** What differs between two sides that should not: lengths, rates, windows, faults, speed, load, tyres. */
export function differences(
  sides: Sides,
  head: { readonly levels: Levels; readonly options: CompareOptions },
): Differences {
  const speed = covariates(sides).find(({ name }) => name === 'speed');
  const others = covariates(sides).filter(({ name }) => name !== 'speed');
  const faults = faultsOf(sides);
  const found = [
    ...lengthsAndRates(sides),
    ...(speed === undefined ? [] : speedWarning(sides, speed, head)),
    ...others.flatMap((one) => conditionWarning(sides, one)),
  ];
  const apart = speed === undefined ? 0 : Math.abs(meanOf(speed.b) / meanOf(speed.a) - 1);
  return {
    warnings: found,
    guards: [
      ...(apart > speedsForbid
        ? [`the mean speeds differ by ${percentText(100 * apart)}, so the sides are not comparable`]
        : []),
      ...(faults.length > 0 ? [`a recording has a fault: ${faults[0]}`] : []),
    ],
  };
}

const meanOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
const runsOf = ({ tracks }: Side): Run[] => tracks.map(({ run }) => run);

function lengthsAndRates({ a, b }: Sides): Warning[] {
  const found: Warning[] = [];
  const [lengthA, lengthB] = [a, b].map((side) => meanOf(runsOf(side).map(extent)));
  if (Math.abs(lengthA / lengthB - 1) > durationsDiffer) {
    found.push({
      code: 'compare.durations',
      message: `The runs of ${a.name} last ${lengthA.toFixed(1)} s on average and those of ${b.name} ${lengthB.toFixed(1)} s: trim both to the same stretch.`,
    });
  }
  const [rateA, rateB] = [a, b].map((side) => meanOf(runsOf(side).map(({ rate }) => rate)));
  if (Math.abs(rateA / rateB - 1) > ratesDiffer) {
    found.push({
      code: 'compare.rates',
      message: `${a.name} was sampled at ${rateA.toFixed(1)} Hz and ${b.name} at ${rateB.toFixed(1)} Hz: keep bands below 0.4 of the lower rate.`,
    });
  }
  const windows = [a, b].map(({ window }) => `${window.shape} ${window.length} s`);
  if (windows[0] !== windows[1])
    found.push({
      code: 'compare.windows',
      message: `The spectra were made with different windows (${windows.join(', ')}): use one for both.`,
    });
  return found;
}

/** Faults of the recordings, which are told with every result by whoever shows it. */
function faultsOf({ a, b }: Sides): string[] {
  return [...runsOf(a), ...runsOf(b)].flatMap(({ label, findings }) =>
    findings
      .filter(({ severity }) => severity === 'fault')
      .map(({ message }) => (message.startsWith(label) ? message : `${label}: ${message}`).replace(/\.$/, '')),
  );
}

interface NamedCovariate extends Covariate {
  readonly name: string;
  readonly unit: string;
}

/** Columns of the run sheet that say under what conditions a run was made, where every run of both sides has a figure. */
function covariates({ a, b }: Sides): NamedCovariate[] {
  const headers = Object.keys(a.tracks[0].run.sheet?.facts ?? {}).filter((header) =>
    /^(speed|mass|load|pressure.*|.* pressure)$/.test(bareHeader(header)),
  );
  return headers.flatMap((header) => {
    const name = bareHeader(header);
    const [valuesA, valuesB] = [a, b].map((side) => runsOf(side).map((run) => figureOf(run, name)));
    const complete = [...valuesA, ...valuesB].every((value) => value !== undefined && value > 0);
    const unit = /[([]\s*([^()[\]]*?)\s*[)\]]\s*$/.exec(header)?.[1] ?? '';
    return complete ? [{ name, unit, a: valuesA as number[], b: valuesB as number[] }] : [];
  });
}

/** A run's figure under a column, in SI where its header's unit is known. */
function figureOf({ sheet }: Run, name: string): number | undefined {
  const header = Object.keys(sheet?.facts ?? {}).find((one) => bareHeader(one) === name);
  const value = header === undefined ? undefined : sheetNumber(sheet?.facts[header] ?? '');
  const unit = /[([]\s*([^()[\]]*?)\s*[)\]]\s*$/.exec(header ?? '')?.[1];
  const parsed = unit === undefined ? undefined : parseUnit(unit);
  return value === undefined ? undefined : value * (parsed?.ok === true ? parsed.unit.factor : 1);
}

function told({ a, b }: Sides, { name, unit, a: valuesA, b: valuesB }: NamedCovariate): string {
  const parsed = parseUnit(unit);
  const factor = parsed.ok ? parsed.unit.factor : 1;
  const [meanA, meanB] = [valuesA, valuesB].map((values) => formatNumber(meanOf(values) / factor, 3));
  const change = signedPercentText(100 * (meanOf(valuesB) / meanOf(valuesA) - 1));
  return `By the run sheet the mean ${name} was ${meanA}${unit && ` ${unit}`} with ${a.name} and ${meanB}${unit && ` ${unit}`} with ${b.name} (${change})`;
}

function conditionWarning(sides: Sides, covariate: NamedCovariate): Warning[] {
  if (Math.abs(meanOf(covariate.b) / meanOf(covariate.a) - 1) <= conditionsDiffer) return [];
  return [
    {
      code: `compare.${covariate.name.replace(/\W+/g, '-')}`,
      message: `${told(sides, covariate)}: that may be the change.`,
    },
  ];
}

function speedWarning(
  sides: Sides,
  speed: NamedCovariate,
  { levels, options }: { readonly levels: Levels; readonly options: CompareOptions },
): Warning[] {
  const apart = Math.abs(meanOf(speed.b) / meanOf(speed.a) - 1);
  if (apart <= conditionsDiffer) return [];
  const rows = covariateSensitivity(levels, speed, { ...options, sensitivity: false }, [0.5, 1, 1.5]);
  const figures = rows.map(({ row }) => signedPercentText(row.changePercent ?? 0));
  const powers = rows.map(({ exponent }) => String(exponent));
  const verdict = apart > speedsForbid ? 'too far apart to compare' : 'vibration grows with speed';
  return [
    {
      code: 'compare.speeds',
      message: `${told(sides, speed)}: ${verdict}. At equal speed the change would be ${oneOf(figures)}, if levels go with speed to the power ${oneOf(powers)}.`,
    },
  ];
}

const oneOf = (texts: readonly string[]): string => `${texts.slice(0, -1).join(', ')} or ${texts[texts.length - 1]}`;
