// Writes the TypeScript project of each room from the table of rooms, so that the two cannot differ.
import { writeFileSync } from 'node:fs';
import { rooms } from './rooms.mjs';

const root = new URL('../', import.meta.url);
for (const [room, { imports, types: typesOf = [], ambient, declarations = [] }] of Object.entries(rooms)) {
  const lib = ambient.includes('dom') ? ['ES2023', 'DOM', 'DOM.Iterable'] : ['ES2023'];
  const types = ambient.filter((name) => name !== 'dom');
  const project = {
    extends: '../../tsconfig.base.json',
    compilerOptions: { rootDir: '.', outDir: `../../out/types/${room}`, lib, types },
    include: ['**/*.ts', ...declarations.map((file) => `../${file}`)],
    references: [...imports, ...typesOf].map((other) => ({ path: `../${other}` })),
  };
  writeFileSync(new URL(`src/${room}/tsconfig.json`, root), JSON.stringify(project, null, 2) + '\n');
}
const all = {
  files: [],
  references: [...Object.keys(rooms).map((room) => ({ path: `src/${room}` })), { path: 'test' }],
};
writeFileSync(new URL('tsconfig.json', root), JSON.stringify(all, null, 2) + '\n');
