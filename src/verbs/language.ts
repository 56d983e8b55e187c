import { verbs } from './catalogue.ts';
import { fields } from './fields.ts';
import { functions, constants } from './functions.ts';

/** The words of the language, as its checker and its services want them. */
export const catalogue = {
  verbs: verbs.map(({ form }) => form),
  functions: functions.map(({ form }) => form),
  constants,
  fields,
};
