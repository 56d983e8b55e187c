import { folderOf } from '../../result/fileNames.ts';
import { inSI } from '../../units/arithmetic.ts';
import { formatNumber } from '../../units/format.ts';
import { nearest } from '../../units/nearest.ts';
import type { CheckedNotebook } from '../check.ts';
import { argumentsUnder, type Checked, type CheckedArgument } from '../checked.ts';
import type { Form } from '../form.ts';
import { changeTo, reporter, type Report } from '../messages.ts';
import type { Diagnostic } from '../diagnostic.ts';
import { callsIn, type CallOf } from './calls.ts';
import type { Facts, Outside } from './outside.ts';
import { fileArguments, filesOf, sourcesOf } from './source.ts';

/** The problems of every cell that the text alone shows, as you type. */
export const diagnose = (notebook: CheckedNotebook): readonly (readonly Diagnostic[])[] => notebook.problems;

/**
 * What the world around shows of one cell before anything runs: files and channels that do not exist, stretches outside
 * a run, bands past half the rate. All are warnings.
 */
export async function diagnoseOutside(
  notebook: CheckedNotebook,
  cell: number,
  outside: Outside,
): Promise<readonly Diagnostic[]> {
  const found: Diagnostic[] = [];
  const report = reporter(found);
  for (const { cell: at, expression } of notebook.statements) {
    if (at !== cell || !expression) continue;
    for (const call of callsIn(expression)) {
      const form = notebook.vocabulary.verbs.get(call.verb);
      if (!form) continue;
      await lookForFiles(call, notebook, outside, report);
      await lookForChannels(call, form, notebook, outside, report);
      lookAtRanges(call, form, outside, report);
    }
  }
  return found.sort((a, b) => a.place.from - b.place.from);
}

async function lookForFiles(call: CallOf, notebook: CheckedNotebook, outside: Outside, report: Report): Promise<void> {
  for (const argument of fileArguments(call, notebook)) {
    if ((await outside.count(argument.text)) > 0) continue;
    const folder = folderOf(argument.text);
    const entries = await outside.list(folder);
    const near = nearest(
      argument.text,
      entries.filter((entry) => !entry.folder).map(({ name }) => folder + name),
    );
    report(
      'file.missing',
      argument.place,
      { pattern: argument.text, nearest: near },
      near.map((name) => changeTo(`"${name}"`, argument.place)),
    );
  }
}

async function lookForChannels(
  call: CallOf,
  form: Form,
  notebook: CheckedNotebook,
  outside: Outside,
  report: Report,
): Promise<void> {
  const slots = [
    ...form.operands.map(({ name, accepts }) => ({ given: argumentsUnder(name, call.operands), accepts })),
    ...form.options.map(({ keyword, accepts }) => ({ given: argumentsUnder(keyword, call.options), accepts })),
  ];
  const wanted = slots
    .filter(({ accepts }) => accepts.some((accept) => accept.type === 'channel' && accept.role !== 'label'))
    .flatMap(({ given }) => given ?? []);
  if (wanted.length === 0) return;
  const known = await channelsOf(call, form, notebook, outside);
  if (known.length === 0) return;
  for (const argument of wanted) {
    const channel =
      argument.type === 'text'
        ? argument.text
        : argument.type === 'word'
          ? (argument.text ?? argument.word)
          : undefined;
    if (channel === undefined || known.includes(channel)) continue;
    const near = nearest(channel, known);
    const plain = argument.type === 'word' && argument.text === undefined;
    report(
      'channel.unknown',
      argument.place,
      { channel, known, nearest: near },
      plain ? near.map((name) => changeTo(name, argument.place)) : [],
    );
  }
}

const firstOperand = (call: CallOf, form: Form): CheckedArgument | undefined =>
  argumentsUnder(form.operands.at(0)?.name ?? '', call.operands)?.[0];

/** Names and headers of the channels that a call's runs have, as far as that is known. */
async function channelsOf(
  call: CallOf,
  form: Form,
  notebook: CheckedNotebook,
  outside: Outside,
): Promise<readonly string[]> {
  const first = firstOperand(call, form);
  const known = first?.type === 'name' ? outside.facts(first.name)?.channels : undefined;
  if (known) return known;
  const files = filesOf(call, notebook);
  const pattern = (files.length > 0 ? files : sourcesOf(first, notebook)).at(0);
  if (pattern === undefined) return [];
  return (await outside.channels(pattern)).flatMap(({ name, header }) =>
    header === undefined ? [name] : [name, header],
  );
}

/** Ranges of the first operand's own axis: a stretch of time, a band of frequency. A chart may show any stretch. */
function lookAtRanges(call: CallOf, form: Form, outside: Outside, report: Report): void {
  const first = firstOperand(call, form);
  const facts = first?.type === 'name' ? outside.facts(first.name) : undefined;
  if (!facts || form.gives === 'chart') return;
  for (const argument of [...Object.values(call.operands), ...Object.values(call.options)].flat()) {
    if (argument.type === 'range') lookAtRange(argument, facts, report);
  }
}

function lookAtRange(range: Checked & { readonly type: 'range' }, { rate, duration }: Facts, report: Report): void {
  const { from, to, place } = range;
  const time = to.unit.dimension.time > 0;
  const found = `${formatNumber(from.value, 9)}..${formatNumber(to.value, 9)} ${to.unit.symbol}`;
  // Half a microsecond of slack: the duration is a count over a rate.
  if (time && duration !== undefined && (inSI(to) > duration + 5e-7 || from.value < 0)) {
    report('range.outside', place, { found, end: `${formatNumber(duration, 6)} s` });
  }
  if (!time && rate !== undefined && inSI(to) > rate / 2)
    report('band.rate', place, { found, half: `${formatNumber(rate / 2, 6)} Hz` });
}
