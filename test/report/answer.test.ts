import { strict as assert } from 'node:assert';
import { methodsOf } from '../../src/analysis/evidence/methods.ts';
import type { Output } from '../../src/charts/output.ts';
import type { Piece } from '../../src/report/page.ts';
import { answerPieces } from '../../src/report/answer.ts';

/** The sentences of a short form: its prose, then what is shown and told. */
const textOf = (pieces: readonly Piece[]): string =>
  pieces
    .flatMap((piece) =>
      piece.kind === 'prose'
        ? [piece.text]
        : piece.outputs.flatMap(({ parts, messages }) => [
            ...parts.flatMap((part) => (part.type === 'text' ? [part.text] : [])),
            ...messages.map(({ message }) => message),
          ]),
    )
    .join('\n');

describe('the short form of a study', () => {
  it('tells under limits what a comparison warns of, shown or not, and nothing of other statements', () => {
    const output = (kind: Output['kind'], code: string): Output => ({
      ...{ version: 1, name: undefined, kind, text: '' },
      parts: [{ type: 'text', text: `Shown as ${kind}.` }],
      messages: [{ severity: 'warning', code, message: `Told by ${kind}: ${code}.` }],
    });
    const outputs = [
      output('messages', 'compare.order-apart'),
      output('messages', 'resolution'),
      output('verdict', 'claim.other'),
    ];
    const pieces = [{ kind: 'cell', text: 'c', outputs } as const];
    const text = textOf(answerPieces({ file: 'a.md', pieces, sources: [], tool: 'Washboard' }, 'How.'));
    assert.match(text, /## Limits[^]*Told by messages: compare\.order-apart\.\nTold by verdict: claim\.other\./);
    assert.doesNotMatch(text, /resolution/);
  });

  it('says so where nothing was compared, and tells of no runs', () => {
    const methods = methodsOf([])
      .parts.map(({ text }) => text)
      .join(' ');
    const pieces = [{ kind: 'prose', text: '# Springs\n\nHow soft?' } as const];
    const text = textOf(answerPieces({ file: 'a.md', pieces, sources: [], tool: 'Washboard' }, methods));
    assert.match(text, /^# Springs\n\nHow soft\?\n## Answer\nNothing in this notebook compares runs or judges a claim/);
    assert.match(text, /## Methods\nComputed with Washboard/);
    assert.doesNotMatch(text, /0 runs|Limits|run sheet|recordings/);
  });

  it('tells how far the intervals reach once, under limits, and what stands beside every answer once below them', () => {
    const output = (verdict: string, ...asides: string[]): Output => ({
      ...{ version: 1, name: undefined, kind: 'verdict', text: '', messages: [] },
      parts: [
        { type: 'text', style: 'lead', text: verdict },
        { type: 'text', style: 'reach', text: 'The intervals speak of these fittings.' },
        ...asides.map((text) => ({ type: 'text', style: 'aside', text }) as const),
      ],
    });
    const of = (...outputs: Output[]): string =>
      textOf(
        answerPieces({ file: 'a.md', pieces: [{ kind: 'cell', text: 'c', outputs }], sources: [], tool: 'W' }, 'How.'),
      );
    const text = of(output('First.', 'Plan p.', 'Run 3 left out.'), output('Second.', 'Plan p.'));
    assert.match(text, /## Answer\nFirst\.\nRun 3 left out\.\nSecond\.\nPlan p\.\n## Methods/);
    assert.match(text, /## Limits\nThe answer reaches [^\n]*\nThe intervals speak of these fittings\.$/);
    assert.match(of(output('First.', 'Plan p.')), /## Answer\nFirst\.\nPlan p\.\n## Methods/);
  });
});
