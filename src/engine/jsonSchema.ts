import { kindNames } from '../values/kinds.ts';
import { kindSchema } from '../values/schema.ts';
import { exactly, type Schema } from '../values/shapes.ts';

const text: Schema = { type: 'string' };
const whole: Schema = { type: 'integer', minimum: 0 };
const listOf = (items: Schema): Schema => ({ type: 'array', items });

/** A statement of one kind, or of one that could not be told. */
const statement = (kind: string | null): Schema =>
  exactly(
    {
      line: whole,
      name: { type: ['string', 'null'] },
      shows: { ...text, description: 'The name that is shown, where a statement does nothing else.' },
      kind: { const: kind },
      value: kind === null ? { type: 'null' } : { anyOf: [{ $ref: `#/$defs/${kind}` }, { type: 'null' }] },
      warnings: listOf(exactly({ code: text, message: text })),
      error: { anyOf: [{ type: 'null' }, { $ref: '#/$defs/error' }] },
    },
    ['shows'],
  );

/** The JSON Schema of what `run --json` gives: every kind of value from its description. */
export function runSchema(): Schema {
  const definitions = Object.fromEntries(kindNames.map((kind) => [kind, kindSchema(kind)]));
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'What a vibration notebook gave: washboard run --json',
    description:
      'Numbers are in the unit that their key ends in (_hz, _s, _percent, _db, _deg, _m_s2) or, without one, in what the unit beside them says. A number that does not exist is null. Lines are those of the file; columns count from 1, both ends inclusive.',
    ...exactly({
      notebook: text,
      ok: { type: 'boolean' },
      sources: listOf(exactly({ path: text, bytes: whole, sha256: { type: 'string', pattern: '^[0-9a-f]{64}$' } })),
      cells: listOf(exactly({ index: whole, line: whole, statements: listOf({ $ref: '#/$defs/statement' }) })),
      prose: listOf(
        exactly({
          line: whole,
          text,
          unit: text,
          expression: text,
          agrees: { type: 'boolean' },
          now: { type: ['string', 'null'] },
          message: { type: ['string', 'null'] },
        }),
      ),
    }),
    $defs: {
      statement: { oneOf: [null, ...kindNames].map(statement) },
      error: exactly({ code: text, message: text, line: whole, from: whole, to: whole }),
      ...definitions,
    },
  };
}
