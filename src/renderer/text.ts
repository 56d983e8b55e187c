import type { TextPart } from '../charts/output.ts';
import { unparted } from '../charts/words/names.ts';
import { element } from './element.ts';
import { sentenceMenu } from './taking/takes.ts';

/** Sentences, a paragraph a line; verbatim text as it stands. What is of second rank opens on demand. */
export function textElement({ text, style, folded }: TextPart): HTMLElement {
  const body = style === 'verbatim' ? verbatim(text) : paragraphs(text, style);
  return folded === undefined ? body : element('details', 'washboard-folded', element('summary', '', folded), body);
}

function verbatim(text: string): HTMLElement {
  const block = element('pre', 'washboard-plain', text);
  block.tabIndex = 0;
  return block;
}

function paragraphs(text: string, style: TextPart['style']): HTMLElement {
  const lines = text.split('\n').map((line) => element('p', '', unparted(line)));
  // What stands aside is no answer.
  const menu = style === 'lead' || style === undefined ? [sentenceMenu(text)] : [];
  return element('div', `washboard-text${style === undefined ? '' : ` washboard-${style}`}`, ...lines, ...menu);
}
