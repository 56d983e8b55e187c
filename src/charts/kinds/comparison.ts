import {
  chanceHeading,
  comparisonCaption,
  everyRowTitle,
  interactionTitle,
  outcomesSentence,
  bandOfRow,
  intervalName,
} from '../words/compared.ts';
import { hasConditions, sidesIn, type ComparisonValue, placesOfRow } from '../../values/comparison.ts';
import { levelScaleOf } from '../levelScale.ts';
import { outcomeWord, type ComparisonRow } from '../../values/comparisonParts.ts';
import { capitalised } from '../../result/words.ts';
import { distinct, shortened } from '../words/names.ts';
import { aligned, interval, probability, signed, significant, fixed } from '../../values/number.ts';
import type { TablePart, TextPart } from '../output.ts';
import { comparisonChart } from '../plots/change.ts';
import { bareOverlay } from '../plots/overlayOptions.ts';
import { ratioChart } from '../plots/ratio.ts';
import { runOrderChart } from '../plots/runOrder.ts';
import { outcomes } from '../plots/changeLayers.ts';
import { detailsTable } from './comparisonDetails.ts';
import { excludedPart } from './excluded.ts';
import { planPart } from './followed.ts';
import { columns, some, type Column, type Presenter } from './kind.ts';
import { reachPart } from './reach.ts';

/** What was found in words, the picture, and the figures. */
export const presentComparison: Presenter<'comparison'> = (value) =>
  some(
    ...foundParts(value),
    ...interactionParts(value),
    reachPart(value),
    planPart(value),
    comparisonChart(value, bareOverlay),
    ratioChart(value, bareOverlay),
    ...headRows(value).map((row) => runOrderChart(value, row)),
    comparisonTable(value),
    detailsTable(value),
    excludedPart(...sidesIn(value).map(({ excluded }) => excluded)),
  );

/** More bands than this are counted before they are told one by one. */
const bandsTold = 4;

/**
 * One sentence a band, the one that the question is about as the answer and the others after it; of many bands how they came
 * out, and the sentences on demand.
 */
function foundParts(value: ComparisonValue): TextPart[] {
  const { rows } = value;
  const said = (some: readonly ComparisonRow[]): string => some.map((row) => row.sentence).join('\n');
  const primary = rows.filter((row) => row.primary === true);
  const others = rows.filter((row) => row.primary !== true);
  if (rows.length <= bandsTold) {
    const othersPart: TextPart = { type: 'text', text: said(others) };
    if (rows.length === 1) return [{ type: 'text', style: 'lead', text: said(rows) }];
    return primary.length === 0 ? [othersPart] : [{ type: 'text', style: 'lead', text: said(primary) }, othersPart];
  }
  const counts = outcomes.map(
    ({ outcome }) => [outcome, others.filter((row) => row.outcome === outcome).length] as const,
  );
  const lines = [...primary.map((row) => row.sentence), outcomesSentence(value, counts, primary.length > 0)];
  return [
    { type: 'text', style: 'lead', text: lines.join('\n') },
    { type: 'text', folded: everyRowTitle(value, primary.length > 0), text: said(others) },
  ];
}

/** Whether changes differ between strata, one sentence a change; of many on demand. */
function interactionParts({ rows }: ComparisonValue): TextPart[] {
  const sentences = rows.flatMap(({ interaction }) => interaction?.sentence ?? []);
  if (sentences.length === 0) return [];
  const folded = sentences.length > bandsTold ? { folded: interactionTitle } : {};
  return [{ type: 'text', ...folded, text: sentences.join('\n') }];
}

/** The row whose runs are shown one by one: the primary band, else the one that holds most of A's vibration. */
function headRows({ rows }: ComparisonValue): ComparisonRow[] {
  const primary = rows.filter((row) => row.primary === true);
  const overall = rows.filter(({ stratum }) => stratum === undefined);
  const byShare = [...(overall.length > 0 ? overall : rows)].sort(
    (first, second) => (second.shareOfA ?? 0) - (first.shareOfA ?? 0),
  );
  return (primary.length > 0 ? primary : byShare).slice(0, 1);
}

interface Detail {
  readonly column: Column;
  readonly texts: readonly string[];
}

/** The outcome beside the band, then the change and how sure it is, then the levels behind it. */
function comparisonTable(value: ComparisonValue): TablePart {
  const { rows } = value;
  const details: Detail[] = [
    {
      column: ['Band', '', 'left'],
      texts: rows.map((row) => `${bandOfRow(value, row)}${row.primary === true ? ' (primary)' : ''}`),
    },
    ...placeDetails(value),
    { column: ['Outcome', '', 'left'], texts: rows.map(({ outcome }) => outcomeWord(outcome, value)) },
    ...changeDetails(value),
    ...levelDetails(value),
    { column: ['Change', 'dB'], texts: rows.map(({ changeDb }) => signed(fixed(changeDb, 2))) },
    ...(rows.some(({ shareOfA }) => shareOfA !== undefined)
      ? [{ column: ['Share of A', '%'] as const, texts: rows.map(({ shareOfA }) => significant(shareOfA, 3)) }]
      : []),
  ];
  return {
    type: 'table',
    caption: comparisonCaption(value),
    columns: columns(...details.map(({ column }) => column)),
    rows: rows.map((_, index) => details.map(({ texts }) => texts[index])),
  };
}

/** What tells a row from others of its band. */
const placeDetails = (value: ComparisonValue): Detail[] =>
  (value.rows.length === 0 ? [] : placesOfRow(value, value.rows[0])).map(([heading], k) => ({
    column: [capitalised(heading), '', 'left'],
    texts: value.rows.map((row) => placesOfRow(value, row)[k][1]),
  }));

function changeDetails(value: ComparisonValue): Detail[] {
  const { rows } = value;
  const texts = rows.map((row) => interval(row.changePercent, row.lowPercent, row.highPercent));
  const change: Detail = { column: ['Change', '%'], texts: texts.map(({ value }) => signed(value)) };
  if (rows.every(({ lowPercent }) => lowPercent === undefined)) return [change];
  const spans = texts.map(({ low, high }, index) =>
    rows[index].lowPercent === undefined ? '–' : `${signed(low)} to ${signed(high)}`,
  );
  const chances = rows.map((row) => probability(row.pAdjusted));
  return [
    change,
    { column: [intervalName(value), '%'], texts: spans },
    { column: [chanceHeading(value), ''], texts: chances },
  ];
}

/** Both sides' levels. */
function levelDetails(value: ComparisonValue): Detail[] {
  const { a, b, rows, level } = value;
  const scales = rows.map((row) => levelScaleOf(row.unit, level));
  const units = distinct(scales.map((scale) => scale.unit));
  const unit = units.length === 1 ? units[0] : '';
  const texts = (of: (row: ComparisonRow) => number): readonly string[] =>
    level === undefined ? aligned(rows.map(of)) : rows.map((row, k) => scales[k].write(of(row)));
  // Of several conditions the row names its own.
  const [named, other] = hasConditions(value) ? ['baseline', 'condition'] : [shortened(a.name), shortened(b.name)];
  return [
    { column: [`A: ${named}`, unit], texts: texts((row) => row.a) },
    { column: [`B: ${other}`, unit], texts: texts((row) => row.b) },
  ];
}
