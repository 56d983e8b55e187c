/** Writes the language reference and the list of its codes: `npm run reference`. */
import { writeFileSync } from 'node:fs';
import { codesModule, reference } from './reference.ts';

writeFileSync(new URL('../../media/reference.md', import.meta.url), reference());
writeFileSync(new URL('../../src/editor/pagedCodes.ts', import.meta.url), codesModule());
