/** Writes the language reference: `npm run reference`. */
import { writeFileSync } from 'node:fs';
import { reference } from './reference.ts';

writeFileSync(new URL('../../media/reference.md', import.meta.url), reference());
