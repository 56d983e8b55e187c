import { describeAccepts, describeKind } from '../../src/language/describe.ts';
import type { Form, OptionForm, ValueKind } from '../../src/language/form.ts';
import { vocabularyOf } from '../../src/language/vocabulary.ts';
import { grammar, terminals } from '../../src/language/grammar.ts';
import { functionSynopsis, synopsisOf } from '../../src/language/services/synopsis.ts';
import { listed } from '../../src/result/words.ts';
import { catalogue } from '../../src/verbs/catalogue.ts';
import { cell, heading, page, table, verbatim } from './markdown.ts';
import { messageSources, type PrintedPage } from './messageSources.ts';
import { simulatedSentence } from './simulated.ts';
import { channels, introduction, quantities, spectra, statements } from './prose.ts';
import { unitTable } from './units.ts';

const { kinds } = vocabularyOf(catalogue);

/** The language reference as one page of Markdown, made from what the language is made of. */
export function reference(): string {
  return `${page(
    '<!-- Written by scripts/reference/makeReference.ts from the definitions of the language. -->',
    heading(1, 'The Washboard language'),
    introduction,
    contents,
    heading(2, 'Statements'),
    statements,
    heading(2, 'Quantities'),
    quantities,
    heading(2, 'Units'),
    'Case counts. `g` is standard gravity, 9.80665 m/s² (exact, ISO 80000-3); a gram is written out.',
    unitTable(),
    heading(2, 'Channels and rate'),
    channels,
    heading(2, 'Spectra, bands and changes'),
    spectra,
    heading(2, 'Verbs'),
    'What stands in square brackets may be left out. Capitals stand for operands; options follow in any order.',
    verbList(),
    ...catalogue.verbs.map(verbSection),
    heading(2, 'Functions'),
    ...catalogue.functions.map(functionSection),
    heading(2, 'Fields'),
    'A scalar is read off a value by `name.field`. Where a value has several rows (runs, channels, bands), one has to be made or picked first.',
    fieldTable(),
    heading(2, 'Grammar'),
    'In EBNF: `[ ]` may be left out, `{ }` may be repeated, `~` says that no blank stands there.',
    verbatim(grammar, 'ebnf'),
    table(
      ['Word', 'stands for'],
      Object.entries(terminals).map(([word, meaning]) => [`\`${word}\``, meaning]),
    ),
    ...messageSources.flatMap(({ title, intro, pages }) => [
      heading(2, title),
      intro,
      ...Object.entries(pages).map(([code, one]) => messageSection(code, one)),
    ]),
  )}\n`;
}

const contents = [
  '[Statements](#statements)',
  '[Quantities](#quantities)',
  '[Units](#units)',
  '[Channels and rate](#channels-and-rate)',
  '[Spectra, bands and changes](#spectra-bands-and-changes)',
  '[Verbs](#verbs)',
  '[Functions](#functions)',
  '[Fields](#fields)',
  '[Grammar](#grammar)',
  ...messageSources.map(({ title }) => `[${title}](#${title.toLowerCase().replaceAll(' ', '-')})`),
].join(' · ');

function verbList(): string {
  return table(
    ['Verb', 'What it does', 'Gives'],
    catalogue.verbs.map(({ verb, summary, gives }) => [`[${verb}](#${verb})`, summary, givenKind(gives)]),
  );
}

const givenKind = (kind: ValueKind): string =>
  kind === 'same' ? 'a value of the kind it is given' : describeKind(kind, kinds);

/** What simulation says of a verb's statements, where a reader of that verb meets it. */
const provenBy: Readonly<Record<string, string>> = {
  compare: simulatedSentence(),
  claim:
    'A verdict rests on the interval of the comparison; where that misses its goal, by simulation, stands under [compare](#compare).',
};

function verbSection(form: Form): string {
  const { verb, summary, help, operands, options, gives, examples } = form;
  return page(
    heading(3, verb),
    summary,
    verbatim(synopsisOf(form).text),
    help,
    provenBy[verb] ?? '',
    table(
      ['Operand', 'Takes', ''],
      operands.map(({ name, keyword, accepts, many, optional, doc }) => [
        `${keyword === undefined ? '' : `\`${keyword}\` `}${name.toUpperCase()}`,
        `${listed(describeAccepts(accepts, kinds, true), 'or')}${many === true ? '; several' : ''}${optional === true ? '; may be left out' : ''}`,
        doc,
      ]),
    ),
    table(['Option', 'Takes', 'Default', ''], options.map(optionRow)),
    `Gives ${givenKind(gives)}.`,
    ...examples.map(cell),
  );
}

function optionRow({ keyword, accepts, parts, many, repeatable, default: given, doc }: OptionForm): readonly string[] {
  const taken =
    parts === undefined
      ? listed(describeAccepts(accepts, kinds, true), 'or')
      : parts.map((part) => partText(part)).join(', then ');
  const takes = taken === '' ? 'nothing' : taken;
  const more = many === true ? '; several' : repeatable === true ? '; may stand several times' : '';
  return [`\`${keyword}\``, `${takes}${more}`, given === undefined ? '' : `\`${given}\``, doc];
}

const partText = ({ accepts, optional }: NonNullable<OptionForm['parts']>[number]): string =>
  `${listed(describeAccepts(accepts, kinds, true), 'or')}${optional === true ? ' (may be left out)' : ''}`;

function functionSection(form: (typeof catalogue.functions)[number]): string {
  return page(
    heading(3, form.name),
    form.summary,
    verbatim(functionSynopsis(form).text),
    table(
      ['Argument', 'Measures', ''],
      form.parameters.map(({ name, doc, dimension }) => [name, dimension ?? 'anything', doc]),
    ),
    cell(form.example),
  );
}

function fieldTable(): string {
  const rows = catalogue.kinds.flatMap(({ words, fields }) =>
    fields.map(({ name, doc, dimension }, index) => [index === 0 ? words : '', `\`${name}\``, doc, dimension ?? '']),
  );
  return table(['Value', 'Field', '', 'Measures'], rows);
}

/** A code's page: what it means, an example that has it, and the same put right. */
const messageSection = (code: string, { title, why, wrong, right }: PrintedPage): string =>
  page(heading(3, code), `**${title}.** ${why}`, 'Wrong:', wrong, 'Right:', right);

/** A module of the editor with the codes that have a page, so that it links those alone: those of a topic in a line. */
export const codesModule = (): string => {
  const topics = messageSources.map(({ pages }) => Object.keys(pages)).filter((codes) => codes.length > 0);
  return [
    '/** Codes with a page in the reference, by topic; written by scripts/reference/makeReference.ts. */',
    'const topics = `',
    ...topics.map((codes) => codes.join(' ')),
    '`;',
    '',
    'export const pagedCodes: ReadonlySet<string> = new Set(topics.trim().split(/\\s+/));',
    '',
  ].join('\n');
};
