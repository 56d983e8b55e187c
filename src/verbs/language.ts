import type { Catalogue } from '../language/vocabulary.ts';
import { verbs } from './catalogue.ts';
import { fieldsOf } from '../values/fields.ts';
import { kindNames, kinds } from '../values/kinds.ts';
import { hasUnits } from '../values/inUnit.ts';
import { functions } from './functions.ts';

/** The words of the language, as its checker and its services want them. */
export const catalogue: Catalogue = {
  verbs: verbs.map(({ form }) => form),
  functions: functions.map(({ form }) => form),
  kinds: kindNames.map((name) => ({
    name,
    words: kinds[name].words,
    fields: fieldsOf(name),
    units: hasUnits(name),
    picks: kinds[name].rows?.pick !== undefined,
  })),
};
