import { printedUnit } from '../../values/number.ts';
import { version } from '../../result/version.ts';
import { sidesIn, type ComparisonValue } from '../../values/comparison.ts';
import type { ExcludedRun } from '../../values/excluded.ts';
import { handsOnExcluded, runsOf } from '../../values/kinds.ts';
import type { MethodsPart, MethodsValue } from '../../values/methods.ts';
import type { Run } from '../../values/run.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import type { Value } from '../../values/value.ts';
import { sheetNumber } from '../../readers/sheet.ts';
import { bareHeader } from '../../values/sheetColumns.ts';
import {
  calibrationText,
  circumstancesText,
  exclusionsText,
  instrumentsText,
  loggersText,
  planText,
  processingText,
  runsText,
  signalsText,
  softwareText,
  spectrumText,
  type RecordedChannel,
  type SheetColumn,
} from '../messages/methods.ts';
import { orderText, statisticsText } from '../messages/methodsOfComparison.ts';
import { calibrationFacts } from './sensors.ts';
import { orderFacts, statisticsFacts, strataCounts } from './methodsOfComparison.ts';

/**
 * The paragraph on methods behind results: from their runs, the run sheet's columns, the steps that were taken with the runs, the
 * windows of spectra and the methods of comparisons. Nothing is computed anew.
 *
 * @param values the results, of any kind
 */
export function methodsOf(values: readonly Value[]): MethodsValue {
  const runs = eachOnce(values.flatMap(runsOf));
  const comparisons = [...new Set(values.flatMap(comparisonsIn))];
  const spectra = [
    ...values.flatMap(spectraIn),
    ...comparisons.flatMap((one) => sidesIn(one).map(({ spectrum }) => spectrum)),
  ];
  const excluded = excludedIn(values, comparisons);
  const hasSheet = runs.some(({ sheet }) => sheet !== undefined);
  const ofRuns = (text: string): string => (runs.length === 0 ? '' : text);
  const said: [about: string, text: string][] = [
    ['instruments', ofRuns(instrumentsText(columnsOf(runs, instrumentColumns), hasSheet))],
    ['calibration', calibrationText(calibrationFacts(runs, comparisons))],
    ...values.flatMap((one): [string, string][] =>
      one.kind === 'loggers'
        ? [
            [
              'loggers',
              loggersText({
                ...{ a: one.a.name, b: one.b.name, confidence: one.confidence },
                ...{ channel: one.clock.channel, stretches: one.clock.stretches },
              }),
            ],
          ]
        : [],
    ),
    [
      'signals',
      signalsText(
        channelsOf(runs),
        runs.map(({ rate }) => rate),
      ),
    ],
    ['runs', ofRuns(runsTold(comparisons, runs))],
    ...comparisons.flatMap((one): [string, string][] => [
      ['order', orderText(orderFacts(one), comparisons.length > 1)],
    ]),
    ['circumstances', circumstancesText(columnsOf(runs, circumstanceColumns).flatMap(figuresOf))],
    [
      'exclusions',
      exclusionsText(
        excluded,
        hasSheet,
        comparisons.some(({ includesExcluded }) => includesExcluded === true),
      ),
    ],
    ['processing', ofRuns(processingText(historiesOf(runs)))],
    ...waysOfSpectra(spectra).map((one): [string, string] => ['spectra', spectrumText(one)]),
    ...comparisons.flatMap((one): [string, string][] => [
      ['statistics', statisticsText(statisticsFacts(one))],
      ['plan', planText(one.plan)],
    ]),
    ['software', softwareText(version)],
  ];
  return { kind: 'methods', parts: partsOf(said), runs };
}

/** What is empty is not said, and what is the same is said once. */
const partsOf = (said: readonly (readonly [string, string])[]): MethodsPart[] =>
  said
    .filter(([, text], index) => text !== '' && said.findIndex(([, other]) => other === text) === index)
    .map(([about, text]) => ({ about, text }));

/** A run may come by several ways; what was done with it tells the ways apart, and does not matter here. */
function eachOnce(runs: readonly Run[]): Run[] {
  const found = new Map(runs.map((run) => [`${run.file.path}\0${run.label}`, run]));
  return [...found.values()];
}

const comparisonsIn = (value: Value): ComparisonValue[] =>
  value.kind === 'comparison' ? [value] : value.kind === 'verdict' ? [value.comparison] : [];

const spectraIn = (value: Value): SpectrumValue[] =>
  value.kind === 'spectrum' ? [value] : value.kind === 'peaks' ? [value.spectrum] : [];

/** How spectra were taken, those that were taken alike told once for all their runs. */
function waysOfSpectra(spectra: readonly (SpectrumValue | undefined)[]): Parameters<typeof spectrumText>[0][] {
  const ways = new Map<string, Parameters<typeof spectrumText>[0]>();
  for (const one of spectra) {
    if (one === undefined) continue;
    const facts = windowFacts(one);
    const key = JSON.stringify([facts.shape, facts.length, facts.overlap]);
    ways.set(key, { ...facts, segments: [...(ways.get(key)?.segments ?? []), ...facts.segments] });
  }
  return [...ways.values()];
}

const windowFacts = ({ window, entries }: SpectrumValue): Parameters<typeof spectrumText>[0] => ({
  ...window,
  segments: entries.map(({ segments }) => segments),
});

function excludedIn(values: readonly Value[], comparisons: readonly ComparisonValue[]): ExcludedRun[] {
  const all = [
    ...values.flatMap((value) => (handsOnExcluded(value) ? (value.excluded ?? []) : [])),
    ...comparisons.flatMap((one) => sidesIn(one).flatMap(({ excluded = [] }) => excluded)),
  ];
  return [...new Map(all.map((run) => [run.path, run])).values()];
}

/** Columns of a run sheet that name what was measured with. */
const instrumentColumns = /logger|sensor|instrument|accelerometer|recorder|mount|calibrat|serial|firmware/;
/** Columns that say under what circumstances a run was made. */
const circumstanceColumns = /^(speed|mass|load|temperature|flow|pressure.*|.* pressure)$/;

/** The sheet's columns whose headers, without units, match; each with the cells that are not empty. */
function columnsOf(runs: readonly Run[], wanted: RegExp): SheetColumn[] {
  const headers = [...new Set(runs.flatMap(({ sheet }) => Object.keys(sheet?.facts ?? {})))];
  return headers
    .filter((header) => wanted.test(bareHeader(header)))
    .map((header) => ({
      header,
      cells: runs.flatMap(({ sheet }) => sheet?.facts[header] ?? []).filter((cell) => cell.trim() !== ''),
    }))
    .filter(({ cells }) => cells.length > 0);
}

/** A column's least and largest figure, where all its cells are figures. */
function figuresOf({ header, cells }: SheetColumn): { name: string; unit: string; least: number; most: number }[] {
  const figures = cells.flatMap((cell) => sheetNumber(cell) ?? []);
  if (figures.length < cells.length) return [];
  const unit = /[([]\s*([^()[\]]*?)\s*[)\]]\s*$/.exec(header)?.[1] ?? '';
  return [{ name: bareHeader(header), unit, least: Math.min(...figures), most: Math.max(...figures) }];
}

function channelsOf(runs: readonly Run[]): RecordedChannel[] {
  const all = runs.flatMap(({ channels }) =>
    channels.map(({ name, unit, axes }) => ({
      name,
      unit: printedUnit(unit.symbol),
      axes: axes?.map((axis) => axis.name),
    })),
  );
  return [...new Map(all.map((one) => [`${one.name} ${one.unit} ${one.axes?.join()}`, one])).values()];
}

/** The runs of each side, once; those of strata and of the reference where a single comparison is told of. */
function runsTold(comparisons: readonly ComparisonValue[], runs: readonly Run[]): string {
  const dates = columnsOf(runs, /^date$/)[0]?.cells ?? [];
  const sides = new Map(comparisons.flatMap(sidesIn).map((side) => [side.name, side.runs.length]));
  if (sides.size === 0) return runsText([{ name: '', runs: runs.length }], [], 0, dates);
  const counts = [...sides].map(([name, count]) => ({ name, runs: count }));
  const [only] = comparisons;
  return comparisons.length === 1
    ? runsText(counts, strataCounts(only), only.reference?.runs.length ?? 0, dates)
    : runsText(counts, [], 0, dates);
}

const historiesOf = (runs: readonly Run[]): string[] => [...new Set(runs.map(({ history }) => history.join(', ')))];
