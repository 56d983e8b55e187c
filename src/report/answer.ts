import { frontMatter } from '../notebook/frontMatter.ts';
import type { Message, Output, Part, TextPart } from '../charts/output.ts';
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
  const answering = outputs.filter(({ kind }) => toldKinds.has(kind));
  const verdicts = answering.filter(({ kind }) => kind === 'verdict');
  const answers = [...verdicts, ...answering.filter(({ kind }) => kind !== 'verdict')];
  const chart = answering.flatMap(({ parts }) => parts.filter(({ type }) => type === 'chart')).slice(0, 1);
  // Of a comparison that a name is given to and that is not shown, nothing stands there but its warnings.
  const limits = eachOnce(
    outputs.flatMap(({ kind, messages }) =>
      toldKinds.has(kind)
        ? messages
        : messages.filter(({ code }) => kind === 'messages' && code.startsWith('compare.')),
    ),
  );
  const fittings = eachOnce(answers.flatMap(({ parts }) => parts.filter(isReach)));
  const head: Piece = { kind: 'prose', text: opening(pieces, file, questionsIn(outputs)) };
  return [
    head,
    section('Answer', answering.length === 0 ? [shown([{ type: 'text', text: nothingCompared }])] : answered(answers)),
    ...(chart.length === 0 ? [] : [section('Chart', [shown(chart)])]),
    section('Methods', [shown([{ type: 'text', text: methods }])]),
    ...(answering.length === 0
      ? []
      : [section('Limits', [shown([{ type: 'text', text: reach }, ...fittings], limits)])]),
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

/**
 * The sentences of each result, without what stands in second rank, how far it reaches, its charts and its tables. What is
 * said beside every one of several, of one plan say, is said once below them.
 */
function answered(outputs: readonly Output[]): Output[] {
  const leading = outputs.map((output) => ({ ...output, messages: [], parts: output.parts.filter(isLeading) }));
  const [first = [], ...others] = leading.map(({ parts }) => parts.filter(isAside));
  const common = others.length === 0 ? [] : first.filter((part) => others.every((parts) => isAmong(part, parts)));
  const own = leading.map((output) => ({ ...output, parts: output.parts.filter((part) => !isAmong(part, common)) }));
  return [...own, ...(common.length === 0 ? [] : [shown(common)])];
}

const isAside = (part: Part): part is TextPart => part.type === 'text' && part.style === 'aside';
const isReach = (part: Part): part is TextPart => part.type === 'text' && part.style === 'reach';
const isLeading = (part: Part): part is TextPart =>
  part.type === 'text' && part.folded === undefined && part.style !== 'verbatim' && !isReach(part);
const isAmong = ({ text, style }: TextPart, parts: readonly TextPart[]): boolean =>
  parts.some((one) => one.text === text && one.style === style);

const shown = (parts: readonly Part[], messages: readonly Message[] = []): Output => ({
  version: 1,
  name: undefined,
  kind: 'text',
  parts,
  messages,
  text: '',
});

const eachOnce = <T extends Message | TextPart>(all: readonly T[]): T[] => [
  ...new Map(all.map((one) => ['message' in one ? one.message : one.text, one])).values(),
];
