import { frontMatter } from '../notebook/frontMatter.ts';
import type { Message, Output, Part } from '../charts/output.ts';
import type { Piece, ReportedNotebook } from './page.ts';

/** What a result's kind brings into the short form. */
const toldKinds = new Set(['comparison', 'verdict']);

/**
 * The short form of a study: its question, what became of it, one chart, methods and limits. What was asked stands in the plan,
 * else in the notebook's first prose.
 *
 * @param methods the paragraph on how the results were come by
 */
export function answerPieces({ pieces, file }: ReportedNotebook, methods: string): readonly Piece[] {
  const outputs = pieces.flatMap((piece) => (piece.kind === 'cell' ? piece.outputs : []));
  const told = outputs.filter(({ kind }) => toldKinds.has(kind));
  const verdicts = told.filter(({ kind }) => kind === 'verdict');
  const answers = [...verdicts, ...told.filter(({ kind }) => kind !== 'verdict')];
  const chart = told.flatMap(({ parts }) => parts.filter(({ type }) => type === 'chart')).slice(0, 1);
  // Of a comparison that a name is given to and that is not shown, nothing stands there but its warnings.
  const limits = outputs.flatMap(({ kind, messages }) =>
    toldKinds.has(kind) ? messages : messages.filter(({ code }) => kind === 'messages' && code.startsWith('compare.')),
  );
  const head: Piece = { kind: 'prose', text: opening(pieces, file, questionsIn(outputs)) };
  return [
    head,
    section('Answer', told.length === 0 ? [shown([{ type: 'text', text: nothingCompared }])] : answers.map(leading)),
    ...(chart.length === 0 ? [] : [section('Chart', [shown(chart)])]),
    section('Methods', [shown([{ type: 'text', text: methods }])]),
    ...(told.length === 0 ? [] : [section('Limits', [shown([{ type: 'text', text: reach }], eachOnce(limits))])]),
  ].flat();
}

const nothingCompared =
  'Nothing in this notebook compares runs or judges a claim, so there is no answer in short form.';

const reach =
  'The answer reaches as far as these runs: this machine, this load, this surface, this speed, and these samples of the parts.';

/** The notebook's title and what was asked; without a plan its first paragraph, in which the question stands. */
function opening(pieces: readonly Piece[], file: string, questions: readonly string[]): string {
  const prose = frontMatter(pieces.find((piece) => piece.kind === 'prose')?.text ?? '').rest;
  const blocks = prose
    .split(/\n\s*\n/)
    .map((block) => block.trim())
    .filter((block) => block !== '');
  const title = blocks.find((block) => /^#\s/.test(block));
  const paragraph = blocks.find((block) => !/^(?:#|!\[)/.test(block));
  const asked = questions.length > 0 ? questions : paragraph === undefined ? [] : [paragraph];
  return [title ?? `# ${file}`, ...asked].join('\n\n');
}

/** What the plans ask, as the item `question` of their tables has it. */
const questionsIn = (outputs: readonly Output[]): string[] =>
  outputs
    .filter(({ kind }) => kind === 'plan')
    .flatMap(({ parts }) => parts.flatMap((part) => (part.type === 'table' ? part.rows : [])))
    .flatMap(([item, text]) => (item === 'question' ? [text] : []));

const section = (heading: string, outputs: readonly Output[]): Piece[] => [
  { kind: 'prose', text: `## ${heading}` },
  { kind: 'cell', text: '', outputs },
];

/** The sentences of a result, without what stands in second rank, its charts and its tables. */
const leading = (output: Output): Output => ({
  ...output,
  messages: [],
  parts: output.parts.filter((part) => part.type === 'text' && part.folded === undefined && part.style !== 'verbatim'),
});

const shown = (parts: readonly Part[], messages: readonly Message[] = []): Output => ({
  version: 1,
  name: undefined,
  kind: 'text',
  parts,
  messages,
  text: '',
});

const eachOnce = (messages: readonly Message[]): Message[] => [
  ...new Map(messages.map((one) => [one.message, one])).values(),
];
