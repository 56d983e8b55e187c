/** Writes the schema of `run --json` from the kinds of value: `npm run schema`. */
import { writeFileSync } from 'node:fs';
import { runSchema } from '../../src/engine/jsonSchema.ts';

const text = `${JSON.stringify(runSchema(), null, 2)}\n`;
writeFileSync(new URL('../../media/run.schema.json', import.meta.url), text);
