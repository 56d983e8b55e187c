import { checkNotebook, type CheckedNotebook } from './check.ts';
import { parseCell } from './parser.ts';
import { caretAt } from './services/caret.ts';
import { completionsAt } from './services/completion.ts';
import { diagnose, diagnoseOutside } from './services/diagnostics.ts';
import { actionsAt, addOptions, fixesOf } from './services/fixes.ts';
import { foldsOf } from './services/folding.ts';
import { formattingEdits } from './services/formatting.ts';
import { hoverAt } from './services/hover.ts';
import { inlayHints } from './services/inlayHints.ts';
import { occurrenceAt } from './services/occurrenceAt.ts';
import { definitionAt, highlightsAt, referencesAt } from './services/references.ts';
import { renamableAt, renameAt } from './services/rename.ts';
import { selectionsAt } from './services/selection.ts';
import { semanticTokens } from './services/semanticTokens.ts';
import { signatureAt } from './services/signature.ts';
import { symbolsOf } from './services/symbols.ts';
import type { Cell } from './tree.ts';
import { vocabularyOf, type Catalogue } from './vocabulary.ts';

/** What the language does for an editor, over the verbs, functions and kinds of one catalogue. */
export function languageService(catalogue: Catalogue) {
  const vocabulary = vocabularyOf(catalogue);
  return Object.freeze({
    // Reading and checking.
    parse: (text: string): Cell => parseCell(text, vocabulary),
    check: (cells: readonly string[], before?: CheckedNotebook, numbers?: readonly number[]): CheckedNotebook =>
      checkNotebook(cells, catalogue, before, numbers),
    // What is wrong, and what can be done about it.
    diagnose,
    diagnoseOutside,
    actionsAt,
    fixesOf,
    addOptions,
    // Help while writing.
    caretAt,
    completionsAt,
    signatureAt,
    hoverAt,
    inlayHints,
    // Finding the way.
    occurrenceAt,
    definitionAt,
    referencesAt,
    highlightsAt,
    symbolsOf,
    // Changing the text.
    renamableAt,
    renameAt,
    formattingEdits,
    // Looks.
    semanticTokens,
    foldsOf,
    selectionsAt,
  });
}
