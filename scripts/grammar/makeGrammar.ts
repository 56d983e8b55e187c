/** Writes the grammar of a cell: `npx tsx scripts/grammar/makeGrammar.ts`. */
import { writeFileSync } from 'node:fs';
import { format } from 'prettier';
import { grammar } from './grammar.ts';

const file = new URL('../../syntaxes/washboard.tmLanguage.json', import.meta.url);
writeFileSync(file, await format(JSON.stringify(grammar()), { parser: 'json', printWidth: 120 }));
