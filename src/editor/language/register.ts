import * as vscode from 'vscode';
import type { EngineThreads } from '../engineThreads.ts';
import { Analyses } from './analyses.ts';
import { registerCodeActions } from './codeActions.ts';
import { registerCompletion } from './completion.ts';
import { Diagnostics } from './diagnostics.ts';
import { registerFolding } from './folding.ts';
import { registerFollowUp } from './followUp.ts';
import { registerFormatting } from './formatting.ts';
import { registerHover } from './hover.ts';
import { registerInlayHints } from './inlayHints.ts';
import { EngineFacts } from './engineFacts.ts';
import { selector } from './program.ts';
import { registerReferences } from './references.ts';
import { registerRename } from './rename.ts';
import { registerSelectionRanges } from './selectionRanges.ts';
import { registerSemanticTokens } from './semanticTokens.ts';
import { registerSignatureHelp } from './signatureHelp.ts';
import { Snippets } from './snippets.ts';
import { registerSymbols } from './symbols.ts';

/** The features of the language in the editor, each over one check of the whole notebook. */
export function registerLanguage(engine: EngineThreads, extension: vscode.Uri): vscode.Disposable {
  const analyses = new Analyses();
  const engineFacts = new EngineFacts(engine);
  const diagnostics = new Diagnostics(analyses, engineFacts);
  return vscode.Disposable.from(
    engineFacts,
    diagnostics,
    registerCodeActions(selector, analyses, diagnostics),
    registerCompletion(selector, analyses, engineFacts, new Snippets(extension)),
    registerFollowUp(),
    registerSignatureHelp(selector, analyses),
    registerHover(selector, analyses, engineFacts),
    registerInlayHints(selector, analyses, engineFacts),
    registerSemanticTokens(selector, analyses),
    registerFolding(selector, analyses),
    registerSymbols(selector, analyses),
    registerReferences(selector, analyses),
    registerRename(selector, analyses),
    registerSelectionRanges(selector, analyses),
    registerFormatting(selector, analyses),
  );
}
