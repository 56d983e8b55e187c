import type { Catalogue } from '../language/vocabulary.ts';
import { verbs } from './catalogue.ts';
import { fieldsOf } from '../values/fields.ts';
import { kindNames } from '../values/kinds.ts';
import { functions } from './functions.ts';

/** The words of the language, as its checker and its services want them. */
export const catalogue: Catalogue = {
  verbs: verbs.map(({ form }) => form),
  functions: functions.map(({ form }) => form),
  fields: Object.fromEntries(
    kindNames.map((kind) => [kind, fieldsOf(kind)] as const).filter(([, fields]) => fields.length > 0),
  ),
};
