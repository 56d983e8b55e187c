import type { FunctionForm } from '../checked.ts';
import type { Accept, Form, OperandForm, OptionForm } from '../form.ts';
import { usualUnits } from '../usual.ts';

/** A form in one line, with where in it each operand and option stands. */
export interface Synopsis {
  readonly text: string;
  readonly parts: readonly SynopsisPart[];
}

export interface SynopsisPart {
  readonly from: number;
  readonly to: number;
  /** Name of the operand or keyword of the option. */
  readonly slot: string;
  readonly option: boolean;
  readonly doc: string;
}

/** `trim RUNS [5..80 s] [from TIME] …`: operands in capitals, what may be left out in brackets. */
export function synopsisOf(form: Form): Synopsis {
  let text = form.verb;
  const parts: SynopsisPart[] = [];
  const add = (written: string, slot: string, option: boolean, doc: string): void => {
    text += ' ';
    parts.push({ from: text.length, to: text.length + written.length, slot, option, doc });
    text += written;
  };
  form.operands.forEach((operand) => add(operandText(operand), operand.name, false, operand.doc));
  form.options.forEach((option) => add(`[${optionText(option)}]`, option.keyword, true, withDefault(option)));
  return { text, parts };
}

/** `natural_frequency(k, m)` */
export function functionSynopsis(form: FunctionForm): Synopsis {
  let text = `${form.name}(`;
  const parts: SynopsisPart[] = [];
  form.parameters.forEach(({ name, doc }, i) => {
    if (i > 0) text += ', ';
    parts.push({ from: text.length, to: text.length + name.length, slot: name, option: false, doc });
    text += name;
  });
  return { text: `${text}${form.variadic ? ', …' : ''})`, parts };
}

export const withDefault = ({ doc, default: given }: OptionForm): string =>
  given === undefined ? doc : `${doc} Default: \`${given}\`.`;

function operandText({ name, keyword, optional, many, accepts }: OperandForm): string {
  const only = accepts.length === 1 && accepts[0].type === 'word' && accepts[0].words.length <= 3;
  const value = only ? acceptText(accepts[0]) : name.toUpperCase();
  const written = `${keyword === undefined ? '' : `${keyword} `}${value}${many ? ', …' : ''}`;
  return optional ? `[${written}]` : written;
}

function optionText({ keyword, accepts, many, parts }: OptionForm): string {
  if (parts)
    return [
      keyword,
      ...parts.map((part) => (part.optional ? `[${acceptsText(part.accepts)}]` : acceptsText(part.accepts))),
    ].join(' ');
  return accepts.length === 0 ? keyword : `${keyword} ${acceptsText(accepts)}${many ? ', …' : ''}`;
}

const acceptsText = (accepts: readonly Accept[]): string => [...new Set(accepts.map(acceptText))].join(' | ');

function acceptText(accept: Accept): string {
  switch (accept.type) {
    case 'value':
      return accept.kinds.length > 3 ? 'VALUE' : accept.kinds.map((kind) => kind.toUpperCase()).join(' | ');
    case 'quantity':
      return usualUnits[accept.dimension].length > 0 ? `N ${usualUnits[accept.dimension][0]}` : 'QUANTITY';
    case 'range':
      return `N..N ${usualUnits[accept.dimension][0] ?? 'UNIT'}`;
    case 'number':
    case 'integer':
      return 'N';
    case 'text':
      return '"…"';
    case 'word':
      return accept.words.length > 7 ? 'WORD' : accept.words.join(' | ');
    case 'channel':
      return accept.role === 'label' ? 'NAME' : 'CHANNEL';
    case 'unit':
      return 'UNIT';
    case 'step':
      return `${accept.verb} …`;
  }
}
