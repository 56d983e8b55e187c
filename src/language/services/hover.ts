import { listed } from '../../result/words.ts';
import { convert } from '../../units/arithmetic.ts';
import { describeDimension, nameOfDimension, preferredSymbol } from '../../units/dimension.ts';
import { formatQuantity } from '../../units/format.ts';
import { parseUnit, unit as unitNamed } from '../../units/parse.ts';
import { cellNameOf, cellWords } from '../cellName.ts';
import type { CheckedNotebook } from '../check.ts';
import { describeAccepts, describeKind } from '../describe.ts';
import { constants } from '../constants.ts';
import type { Form } from '../form.ts';
import type { Place } from '../diagnostic.ts';
import type { Kinds } from '../vocabulary.ts';
import type { Occurrence } from '../work.ts';
import { occurrenceAt } from './occurrenceAt.ts';
import type { Outside } from './outside.ts';
import { functionSynopsis, synopsisOf, withDefault } from './synopsis.ts';

export interface Hover {
  readonly place: Place;
  /** Markdown. */
  readonly text: string;
}

/** Help on what stands at a place: a verb with an example, an option, a unit, a name with its value in short. */
export function hoverAt(notebook: CheckedNotebook, cell: number, offset: number, outside: Outside): Hover | undefined {
  const occurrence = occurrenceAt(notebook, cell, offset);
  const text = occurrence && textOf(occurrence, notebook, outside);
  return occurrence && text ? { place: occurrence.place, text } : undefined;
}

const code = (text: string): string => ['```washboard', text, '```'].join('\n');

function textOf(occurrence: Occurrence, notebook: CheckedNotebook, outside: Outside): string | undefined {
  switch (occurrence.role) {
    case 'definition':
    case 'name':
      return nameText(occurrence.name, notebook, outside);
    case 'verb':
      return verbText(occurrence.form);
    case 'keyword':
      return keywordText(occurrence.form, occurrence.keyword, notebook.vocabulary.kinds);
    case 'word':
      return `\`${occurrence.word}\`: ${slotDoc(occurrence.form, occurrence.slot)}`;
    case 'channel':
      return `The ${occurrence.of === 'label' ? 'name' : 'channel'} \`${occurrence.word}\`.`;
    case 'function':
      return `${code(functionSynopsis(occurrence.form).text)}\n${occurrence.form.summary}\n\n\`${occurrence.form.example}\``;
    case 'constant':
      return `\`${occurrence.name}\` = ${formatQuantity(constants[occurrence.name], 10)}`;
    case 'field':
      return `\`${occurrence.field.name}\` of ${describeKind(occurrence.kind, notebook.vocabulary.kinds)}: ${occurrence.field.doc}`;
    case 'unit':
      return unitText(occurrence.unit);
  }
}

function nameText(name: string, notebook: CheckedNotebook, outside: Outside): string | undefined {
  const index = notebook.bindings.get(name);
  if (index === undefined) return undefined;
  const { cell, line, place } = notebook.statements[index];
  const typed = notebook.types.get(name);
  const facts = outside.facts(name);
  const constant = typed?.constant && formatQuantity(typed.constant, 6);
  const what =
    facts?.summary ?? constant ?? (typed?.kind ? describeKind(typed.kind, notebook.vocabulary.kinds) : 'not run yet');
  const text = notebook.cells[cell].text.slice(place.from, place.to);
  return `**${name}**: ${what}\n${code(text)}\nBound in ${cellWords(cellNameOf(notebook, cell))}, line ${line}.`;
}

function verbText(form: Form): string {
  const example = form.examples[0];
  return [
    code(synopsisOf(form).text),
    form.summary,
    '',
    form.help,
    ...(example ? ['', 'Example:', code(example)] : []),
  ].join('\n');
}

function keywordText(form: Form, keyword: string, kinds: Kinds): string | undefined {
  const option = form.options.find((one) => one.keyword === keyword);
  if (option) {
    const accepts = option.parts?.flatMap((part) => part.accepts) ?? option.accepts;
    const takes = accepts.length > 0 ? ` Takes ${listed(describeAccepts(accepts, kinds), 'or')}.` : '';
    return `\`${keyword}\` of \`${form.verb}\`: ${withDefault(option)}${takes}`;
  }
  const operand = form.operands.find((one) => one.keyword === keyword);
  return operand && `\`${keyword}\` of \`${form.verb}\`: ${operand.doc}`;
}

function slotDoc(form: Form, slot: string): string {
  const option = form.options.find(({ keyword }) => keyword === slot);
  return option ? withDefault(option) : (form.operands.find(({ name }) => name === slot)?.doc ?? '');
}

function unitText(text: string): string | undefined {
  const parsed = parseUnit(text);
  if (!parsed.ok) return undefined;
  const { unit } = parsed;
  const name = nameOfDimension(unit.dimension);
  const base = name && unitNamed(preferredSymbol(name));
  const inBase = base && base.symbol !== unit.symbol ? convert({ value: 1, unit }, base) : undefined;
  const gravity = /(?:^|[^a-z])g(?:$|[^a-z])/.test(unit.symbol) ? ' `g` is standard gravity, 9.80665 m/s².' : '';
  return `\`${unit.symbol}\` is a unit of ${describeDimension(unit.dimension)}${inBase ? `: 1 ${unit.symbol} = ${formatQuantity(inBase, 9)}` : ''}.${gravity}`;
}
