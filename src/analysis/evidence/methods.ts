import { version } from '../../result/version.ts';
import type { ComparisonSide } from '../../values/comparisonParts.ts';
import type { ComparisonValue } from '../../values/comparison.ts';
import type { ExcludedRun } from '../../values/excluded.ts';
import { handsOnExcluded, runsOf } from '../../values/kinds.ts';
import type { MethodsPart, MethodsValue } from '../../values/methods.ts';
import type { Run } from '../../values/run.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import type { Value } from '../../values/value.ts';
import { sheetNumber } from '../../readers/sheet.ts';
import { bareHeader } from '../recordings/sheetFile.ts';
import {
  circumstancesText,
  exclusionsText,
  instrumentsText,
  orderText,
  planText,
  processingText,
  runsText,
  signalsText,
  softwareText,
  spectrumText,
  statisticsText,
  type SheetColumn,
} from '../messages/methods.ts';

/**
 * The paragraph on methods behind results: from their runs, the run sheet's columns, the steps that were taken with the runs, the
 * windows of spectra and the methods of comparisons. Nothing is computed anew.
 *
 * @param values the results, of any kind
 */
export function methodsOf(values: readonly Value[]): MethodsValue {
  const runs = eachOnce(values.flatMap(runsOf));
  const comparisons = [...new Set(values.flatMap(comparisonsIn))];
  const spectra = [...values.flatMap(spectraIn), ...comparisons.flatMap(({ a, b }) => [a.spectrum, b.spectrum])];
  const excluded = excludedIn(values, comparisons);
  const hasSheet = runs.some(({ sheet }) => sheet !== undefined);
  const said: [about: string, text: string][] = [
    ['instruments', instrumentsText(columnsOf(runs, instrumentColumns), hasSheet)],
    [
      'signals',
      signalsText(
        channelsOf(runs),
        runs.map(({ rate }) => rate),
      ),
    ],
    ['runs', runsText(sidesOf(comparisons, runs), columnsOf(runs, /^date$/)[0]?.cells ?? [])],
    ...comparisons.flatMap(({ a, b }): [string, string][] => [['order', orderText(a.name, b.name, orderOf(a, b))]]),
    ['circumstances', circumstancesText(columnsOf(runs, circumstanceColumns).flatMap(figuresOf))],
    [
      'exclusions',
      exclusionsText(
        excluded,
        hasSheet,
        comparisons.some(({ includesExcluded }) => includesExcluded === true),
      ),
    ],
    ['processing', processingText(historiesOf(runs))],
    ...spectra.flatMap((one): [string, string][] =>
      one === undefined ? [] : [['spectra', spectrumText(windowFacts(one))]],
    ),
    ...comparisons.flatMap((one): [string, string][] => [
      ['statistics', statisticsText({ ...one, bands: one.rows.map(({ band, primary }) => ({ ...band, primary })) })],
      ['plan', planText(one.plan)],
    ]),
    ['software', softwareText(version)],
  ];
  return { kind: 'methods', parts: told(said), runs };
}

/** What is empty is not said, and what is the same is said once. */
const told = (said: readonly (readonly [string, string])[]): MethodsPart[] =>
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

const windowFacts = ({ window, entries }: SpectrumValue): Parameters<typeof spectrumText>[0] => ({
  ...window,
  segments: entries.map(({ segments }) => segments),
});

function excludedIn(values: readonly Value[], comparisons: readonly ComparisonValue[]): ExcludedRun[] {
  const all = [
    ...values.flatMap((value) => (handsOnExcluded(value) ? (value.excluded ?? []) : [])),
    ...comparisons.flatMap(({ a, b }) => [...(a.excluded ?? []), ...(b.excluded ?? [])]),
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

const channelsOf = (runs: readonly Run[]): string[] => [
  ...new Set(runs.flatMap(({ channels }) => channels.map(({ name, unit }) => `${name} in ${unit.symbol}`))),
];

function sidesOf(comparisons: readonly ComparisonValue[], runs: readonly Run[]): { name: string; runs: number }[] {
  const sides = new Map(comparisons.flatMap(({ a, b }) => [a, b]).map((side) => [side.name, side.runs.length]));
  return sides.size === 0
    ? [{ name: '', runs: runs.length }]
    : [...sides].map(([name, count]) => ({ name, runs: count }));
}

/** The sides' letters in the order in which the runs were made; undefined where it is not known. */
function orderOf(a: ComparisonSide, b: ComparisonSide): string | undefined {
  if (a.places === undefined || b.places === undefined) return undefined;
  const placed = [
    ...a.places.map((place) => ({ place, letter: 'A' })),
    ...b.places.map((place) => ({ place, letter: 'B' })),
  ];
  return placed
    .sort((one, other) => one.place - other.place)
    .map(({ letter }) => letter)
    .join(' ');
}

const historiesOf = (runs: readonly Run[]): string[] => [...new Set(runs.map(({ history }) => history.join(', ')))];
