import { type AskedMethod, type ComparisonRequest, type NamedPlan } from '../../analysis/evidence/request.ts';
import type { Comparable } from '../../analysis/evidence/sides.ts';
import type { OctaveFraction } from '../../analysis/spectra/octaves.ts';
import { success, type Result } from '../../result/result.ts';
import { runsOf } from '../../values/kinds.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import type { OptionForm } from '../../language/form.ts';
import type { PlannedAdjustment } from '../../values/plan.ts';
import {
  hasFlag,
  option,
  quantityIn,
  rangesIn,
  si,
  siOf,
  textsIn,
  uncertaintyIn,
  wordOf,
  type Argument,
  type Arguments,
  refuse,
} from '../verb.ts';
import { lineWord } from '../../analysis/evidence/lineMetric.ts';
import { lineMetricWord, metricNames } from '../../analysis/evidence/metrics.ts';
import { refuse as refuseEvidence } from '../../analysis/messages/evidence.ts';

/** What the options of a comparison ask for. */
export function compareRequest(given: Arguments): Result<ComparisonRequest> {
  const method = methodIn(given);
  if (!method.ok) return method;
  const adjust = adjustmentsIn(given);
  if (!adjust.ok) return adjust;
  const metric = metricIn(given);
  if (!metric.ok) return metric;
  const over = given.options.over ?? [];
  return success({
    metric: metric.value,
    bands: rangesIn(over),
    fraction: over.flatMap((argument) => wordOf(argument) ?? [])[0] as OctaveFraction | undefined,
    primary: rangesIn(given.options.primary ?? [])[0],
    confidence: siOf(given, 'confidence'),
    margin: siOf(given, 'margin'),
    method: method.value,
    floor: floorIn(option(given, 'above')),
    plan: planIn(option(given, 'plan')),
    includesExcluded: hasFlag(given, 'including'),
    statesWindow: hasFlag(given, 'using'),
    within: textsIn(given.options.within),
    adjust: adjust.value,
    isAllPairs: hasFlag(given, 'all-pairs'),
  });
}

/** How `metric` is written in a comparison and in a plan: `metric vdv`, `metric line 1 x speed`. */
export const metricOption: OptionForm = {
  keyword: 'metric',
  doc: 'The level that is compared: one of these words, or `line 1 x speed`, the line at so many times the turning rate (Hz, rpm) or cycles per metre at the speed (m/s) that the run sheet has of each run.',
  accepts: [],
  parts: [
    { accepts: [{ type: 'word', words: [...metricNames, lineMetricWord] }], doc: 'The level.' },
    { accepts: [{ type: 'number', above: 0 }], optional: true, doc: 'The order of the line.' },
    { accepts: [{ type: 'word', words: ['x'] }], optional: true, doc: 'Times.' },
    { accepts: [{ type: 'channel' }], optional: true, doc: 'The column of speeds, without its unit.' },
  ],
};

/** The word of the metric that is asked for; refused of a line without its order or column, and of these with another metric. */
export function metricIn(given: Arguments): Result<string | undefined> {
  const one = option(given, 'metric');
  if (one === undefined) return success(undefined);
  const parts = one.type === 'group' ? one.parts : [one];
  const [word, ...more] = parts;
  const name = wordOf(word);
  const order = more
    .flatMap((part) => quantityIn(part) ?? [])
    .map(si)
    .at(0);
  const column = more.length < 3 ? undefined : textsIn(more).at(-1);
  if (name !== lineMetricWord) return more.length === 0 ? success(name) : refuseEvidence('metric.line', {}, 'metric');
  if (order === undefined || column === undefined) return refuseEvidence('metric.line', {}, 'metric');
  return success(lineWord({ order, column: column.toLowerCase() }));
}

/** The method that the flags name, of a comparison or of a plan. */
export function methodIn(given: Arguments): Result<AskedMethod | undefined> {
  const [paired, trend] = [hasFlag(given, 'paired'), hasFlag(given, 'trend')];
  if (paired && trend) return refuse('compare.methods', {}, 'trend');
  return success(paired ? 'paired' : trend ? 'trend' : undefined);
}

/** How `adjust` is written in a comparison and in a plan: `adjust speed exponent 1.5 ± 0.2`, also `… 1.5 uncertainty 0.2`, or `adjust temperature`. */
export const adjustOption: OptionForm = {
  keyword: 'adjust',
  doc: 'A column of the run sheet whose part is taken out of the levels: they go with it to the `exponent` that is stated; without one a slope is fitted, which a plan has to name. Its standard uncertainty stands after `±`, or after `uncertainty`.',
  accepts: [],
  parts: [
    { accepts: [{ type: 'channel', role: 'label' }], doc: 'The column, without its unit.' },
    { accepts: [{ type: 'word', words: ['exponent'] }], optional: true, doc: 'The power is stated.' },
    { accepts: [{ type: 'number' }], optional: true, doc: 'The power.' },
    { accepts: [{ type: 'word', words: ['uncertainty'] }], optional: true, doc: 'Its standard uncertainty is stated.' },
    { accepts: [{ type: 'number', least: 0 }], optional: true, doc: 'The standard uncertainty.' },
  ],
  repeatable: true,
};

/** The adjustments that a comparison or a plan states; refused of a word without its figure. */
export function adjustmentsIn(given: Arguments): Result<readonly PlannedAdjustment[]> {
  const found: PlannedAdjustment[] = [];
  for (const one of given.options.adjust ?? []) {
    const parts = one.type === 'group' ? one.parts : [one];
    const [column] = textsIn(parts);
    const words = parts.flatMap((part) => wordOf(part) ?? []).filter((word) => word !== column);
    const figures = parts.filter((part) => quantityIn(part) !== undefined);
    const at = (word: string): Argument | undefined =>
      words.includes(word) ? figures[words.indexOf(word)] : undefined;
    const [exponent, stated] = ['exponent', 'uncertainty'].map(at);
    const own = uncertaintyIn(exponent);
    if (figures.length !== words.length || (stated !== undefined && (exponent === undefined || own !== undefined)))
      return refuse('adjust.words', { column }, 'adjust');
    found.push({ column, exponent: sizeIn(exponent), uncertainty: sizeIn(stated) ?? own });
  }
  return success(found);
}

function sizeIn(argument: Argument | undefined): number | undefined {
  const quantity = quantityIn(argument);
  return quantity && si(quantity);
}

function floorIn(argument: Argument | undefined): RunsValue | SpectrumValue | undefined {
  if (argument?.type !== 'value') return undefined;
  const { value } = argument;
  return value.kind === 'runs' || value.kind === 'spectrum' ? value : undefined;
}

function planIn(argument: Argument | undefined): NamedPlan | undefined {
  if (argument?.type !== 'value' || argument.value.kind !== 'plan') return undefined;
  return { name: argument.name ?? 'the plan', value: argument.value };
}

/** What stands on a side, and what it is called. */
export interface NamedComparable {
  readonly value: Comparable;
  readonly name: string;
}

/**
 * What is compared, the baseline first: called as its set, as the name it is bound to, as the condition that the run sheet has of
 * all its runs where that tells it from the others, or by its letter.
 */
export function comparablesIn(given: Arguments): readonly NamedComparable[] {
  const all = [...(given.operands.a ?? []), ...(given.operands.b ?? [])];
  const conditions = all.map(conditionIn);
  return all.map((argument, index) => {
    const condition = conditions[index];
    const isOwn = conditions.filter((other) => other === condition).length === 1;
    const letter = String.fromCharCode('A'.charCodeAt(0) + index);
    return comparable(argument, isOwn && condition !== undefined && condition !== '' ? condition : letter);
  });
}

function conditionIn(argument: Argument): string | undefined {
  if (argument.type !== 'value') return undefined;
  const [first, ...others] = new Set(runsOf(argument.value).map(({ sheet }) => sheet?.condition));
  return others.length === 0 ? first : undefined;
}

/** The reference runs that were made in between. */
export function referenceIn(given: Arguments): NamedComparable | undefined {
  const argument = option(given, 'reference');
  return argument && comparable(argument, 'reference');
}

function comparable(argument: Argument, otherwise: string): NamedComparable {
  if (argument.type === 'value') {
    const { value } = argument;
    if (value.kind === 'runs' || value.kind === 'spectrum' || value.kind === 'transfer')
      return { value, name: value.set ?? argument.name ?? otherwise };
  }
  throw new Error('an operand can not be compared');
}
