import type { Catalogue } from '../language/vocabulary.ts';
import { verbs } from './catalogue.ts';
import { fields } from '../values/fields.ts';
import { functions } from './functions.ts';

/** The words of the language, as its checker and its services want them. */
export const catalogue: Catalogue = {
  verbs: verbs.map(({ form }) => form),
  functions: functions.map(({ form }) => form),
  fields,
};
