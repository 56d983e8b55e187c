import type { AskedMethod, ComparisonRequest, NamedPlan } from '../../analysis/evidence/request.ts';
import type { Comparable } from '../../analysis/evidence/sides.ts';
import type { OctaveFraction } from '../../analysis/spectra/octaves.ts';
import { success, type Result } from '../../result/result.ts';
import type { RunsValue } from '../../values/runs.ts';
import type { SpectrumValue } from '../../values/spectrum.ts';
import { hasFlag, operand, option, rangesIn, siOf, wordOf } from '../arguments.ts';
import { refuse } from '../messages/evidence.ts';
import type { Argument, Arguments } from '../verb.ts';

/** What the options of a comparison ask for. */
export function compareRequest(given: Arguments): Result<ComparisonRequest> {
  const method = methodIn(given);
  if (!method.ok) return method;
  const over = given.options.over ?? [];
  return success({
    metric: wordOf(option(given, 'metric')),
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
  });
}

/** The method that the flags name, of a comparison or of a plan. */
export function methodIn(given: Arguments): Result<AskedMethod | undefined> {
  const [paired, trend] = [hasFlag(given, 'paired'), hasFlag(given, 'trend')];
  if (paired && trend) return refuse('compare.methods', {}, 'trend');
  return success(paired ? 'paired' : trend ? 'trend' : undefined);
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

/** What stands on a side, and what it is called: as its set, as the name it is bound to, or as its letter. */
export function comparableIn(given: Arguments, at: 'a' | 'b'): { readonly value: Comparable; readonly name: string } {
  const argument = operand(given, at);
  if (argument?.type === 'value') {
    const { value } = argument;
    if (value.kind === 'runs' || value.kind === 'spectrum' || value.kind === 'transfer')
      return { value, name: value.set ?? argument.name ?? at.toUpperCase() };
  }
  throw new Error(`operand ${at} can't be compared`);
}
