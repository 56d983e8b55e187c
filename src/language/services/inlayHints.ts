import { counted } from '../../result/words.ts';
import { inSI } from '../../units/arithmetic.ts';
import { formatNumber, formatQuantity } from '../../units/format.ts';
import type { CheckedNotebook } from '../check.ts';
import { argumentsUnder, type CheckedStatement } from '../checked.ts';
import { tips } from '../messages.ts';
import { callsIn, type CallOf } from './calls.ts';
import type { Outside } from './outside.ts';
import { filesOf } from './source.ts';

export interface InlayHint {
  /** Offset in the cell; the hint stands after it. */
  readonly at: number;
  readonly text: string;
  readonly tip: string;
}

/** What the text leaves unsaid: files behind a pattern, the unit understood, a window's spacing, a sum's result. */
export async function inlayHints(
  notebook: CheckedNotebook,
  cell: number,
  outside: Outside,
): Promise<readonly InlayHint[]> {
  const hints: InlayHint[] = [];
  for (const statement of notebook.statements) {
    if (statement.cell !== cell || !statement.expression) continue;
    for (const call of callsIn(statement.expression)) {
      hints.push(...windowHints(call, notebook), ...(await fileHints(call, notebook, outside)));
    }
    hints.push(...resultHints(statement, notebook, outside));
  }
  return hints.sort((a, b) => a.at - b.at);
}

/** Bins of a window of length T lie 1/T apart. */
function windowHints(call: CallOf, notebook: CheckedNotebook): readonly InlayHint[] {
  const form = notebook.vocabulary.verbs.get(call.verb);
  if (form?.gives !== 'window') return [];
  const length = form.operands.find(({ accepts }) =>
    accepts.some((accept) => accept.type === 'quantity' && accept.dimension === 'time'),
  );
  const given = length && argumentsUnder(length.name, call.operands)?.[0];
  if (given?.type !== 'quantity' || inSI(given.quantity) <= 0) return [];
  const spacing = `${formatNumber(1 / inSI(given.quantity))} Hz apart`;
  return [
    {
      at: given.place.to,
      text: spacing,
      tip: tips.spacing,
    },
  ];
}

async function fileHints(call: CallOf, notebook: CheckedNotebook, outside: Outside): Promise<readonly InlayHint[]> {
  const files = filesOf(call, notebook);
  const patterns = files.filter((file) => /[*?]/.test(file));
  if (patterns.length === 0) return [];
  const counts = await Promise.all(patterns.map((pattern) => outside.count(pattern)));
  const places = Object.values(call.operands).flat();
  return patterns.map((pattern, i) => {
    const at = places.find((one) => one.type === 'text' && one.text === pattern)!.place.to;
    return {
      at,
      text: counted(counts[i], 'file'),
      tip: tips.files(pattern),
    };
  });
}

function resultHints(
  { name, expression, place }: CheckedStatement,
  notebook: CheckedNotebook,
  outside: Outside,
): readonly InlayHint[] {
  if (!name || !expression) return [];
  const constant = notebook.types.get(name.text)?.constant;
  if (constant && expression.type !== 'quantity')
    return [{ at: place.to, text: `= ${formatQuantity(constant)}`, tip: tips.result }];
  const unit =
    expression.type === 'call' && filesOf(expression, notebook).length > 0 && !('unit' in expression.options)
      ? outside.facts(name.text)?.unit
      : undefined;
  return unit === undefined
    ? []
    : [
        {
          at: place.to,
          text: unit,
          tip: tips.unit,
        },
      ];
}
