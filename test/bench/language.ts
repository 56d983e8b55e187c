/**
 * How long a notebook of 200 cells takes to answer each request of an editor. Run with
 * `npx tsx test/bench/language.ts`; the goal is 20 ms for each.
 */
import { checkNotebook } from '../../src/language/check.ts';
import { completionsAt } from '../../src/language/services/completion.ts';
import { diagnoseOutside } from '../../src/language/services/diagnostics.ts';
import { actionsAt } from '../../src/language/services/fixes.ts';
import { foldsOf } from '../../src/language/services/folding.ts';
import { formattingEdits } from '../../src/language/services/formatting.ts';
import { hoverAt } from '../../src/language/services/hover.ts';
import { inlayHints } from '../../src/language/services/inlayHints.ts';
import { nowhere } from '../../src/language/services/outside.ts';
import { definitionAt, highlightsAt, referencesAt } from '../../src/language/services/references.ts';
import { renameAt } from '../../src/language/services/rename.ts';
import { selectionsAt } from '../../src/language/services/selection.ts';
import { semanticTokens } from '../../src/language/services/semanticTokens.ts';
import { signatureAt } from '../../src/language/services/signature.ts';
import { symbolsOf } from '../../src/language/services/symbols.ts';
import { catalogue } from '../../src/verbs/catalogue.ts';

const cells = Array.from({ length: 200 }, (_, i) =>
  [
    `r${i} = load "raw/a${i}-*.csv" channel z unit g | trim 5..80 s | detrend`,
    `S${i} = spectrum r${i} using hann 2 s confidence 95 %`,
    `band S${i} 10..50 Hz, 50..100 Hz`,
    `plot S${i}, S${Math.max(0, i - 1)} over 1..150 Hz scale log mark 4.4 Hz "wheel turn"`,
  ].join('\n'),
);

let notebook = checkNotebook(cells, catalogue);
const at = 100;
let edits = 0;
const edited = (text: string): string[] => cells.with(at, `${cells[at]}\n${text}`);
const caret = cells[at].indexOf(' using');

const requests: Readonly<Record<string, () => unknown>> = {
  'check from nothing': () => checkNotebook(cells, catalogue),
  'check after a key in one cell': () =>
    (notebook = checkNotebook(edited(`levels r7${' '.repeat(edits++ % 2)}`), catalogue, notebook)),
  'check after a new name': () => (notebook = checkNotebook(edited(`x${edits++} = 1`), catalogue, notebook)),
  completion: () => completionsAt(notebook, at, caret, nowhere),
  signature: () => signatureAt(notebook, at, caret),
  hover: () => hoverAt(notebook, at, caret, nowhere),
  'inlay hints': () => inlayHints(notebook, at, nowhere),
  'semantic tokens': () => semanticTokens(notebook, at),
  folding: () => foldsOf(notebook.cells[at]),
  symbols: () => symbolsOf(notebook, at),
  definition: () => definitionAt(notebook, at, caret - 1),
  references: () => referencesAt(notebook, at, caret - 1),
  highlights: () => highlightsAt(notebook, at, caret - 1),
  rename: () => renameAt(notebook, at, caret - 1, 'other'),
  selections: () => selectionsAt(notebook.cells[at], caret),
  formatting: () => formattingEdits(notebook.cells[at]),
  actions: () => actionsAt(notebook, at, { from: caret, to: caret }),
  'outside diagnostics': () => diagnoseOutside(notebook, at, nowhere),
};

const goal = 20;
for (const [name, ask] of Object.entries(requests)) {
  const times: number[] = [];
  for (let i = 0; i < 25; i++) {
    const start = performance.now();
    await ask();
    times.push(performance.now() - start);
  }
  times.sort((a, b) => a - b);
  const median = times[12];
  console.log(
    `${name.padEnd(30)} ${median.toFixed(2).padStart(7)} ms  ${median <= goal ? `within ${goal}` : `MORE than ${goal}`} ms`,
  );
}
