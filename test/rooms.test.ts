import { strict as assert } from 'node:assert';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { rooms, type Room } from '../scripts/rooms.mjs';
import { filesOf, importsOf, root } from './house/sources.ts';

const src = join(root, 'src');
/** The room of a file, given relative to the project; a file outside src has none. */
const roomOf = (file: string): string | undefined => /^src\/([^/]+)\//.exec(file)?.[1];

/** Whether a package's name stands in the list, in which `vega-*` stands for every package that begins so. */
function allowed(name: string, list: readonly string[]): boolean {
  return list.some((entry) => (entry.endsWith('*') ? name.startsWith(entry.slice(0, -1)) : name === entry));
}

const packageName = (from: string): string =>
  from
    .split('/')
    .slice(0, from.startsWith('@') ? 2 : 1)
    .join('/');

describe('the rooms of src', () => {
  it('are the folders of src, each with its table row and TypeScript project', () => {
    const folders = readdirSync(src, { withFileTypes: true });
    assert.deepEqual(
      folders
        .filter((entry) => entry.isDirectory())
        .map((entry) => entry.name)
        .sort(),
      Object.keys(rooms).sort(),
    );
    for (const [room, { imports, types = [] }] of Object.entries(rooms) as [string, Room][]) {
      const project = JSON.parse(readFileSync(join(src, room, 'tsconfig.json'), 'utf8')) as {
        references: { path: string }[];
      };
      assert.deepEqual(
        project.references.map(({ path }) => path.slice(3)),
        [...imports, ...types],
        `references of ${room}`,
      );
    }
  });

  it('stand in the guide for contributors as they are', () => {
    const guide = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8');
    const table = /<!-- rooms -->([\s\S]*?)<!-- \/rooms -->/.exec(guide)?.[1] ?? assert.fail('no table of rooms');
    const rows = [...table.matchAll(/^\| `(\w+)` \|[^|]*\| ([^|]*) \|$/gm)].map(([, room, list]) => [
      room,
      list === '–' ? [] : list.split(', '),
    ]);
    assert.deepEqual(
      Object.fromEntries(rows),
      Object.fromEntries(
        (Object.entries(rooms) as [string, Room][]).map(([room, { imports, types = [] }]) => [
          room,
          [...imports, ...types.map((other) => `${other} (types)`)],
        ]),
      ),
    );
  });

  it('form no circle', () => {
    const seen = new Set<string>();
    const visit = (room: string, path: readonly string[]): void => {
      assert.ok(!path.includes(room), `circle: ${[...path, room].join(' -> ')}`);
      if (seen.has(room)) return;
      seen.add(room);
      const { imports, types = [] } = (rooms as Record<string, Room>)[room];
      for (const other of [...imports, ...types]) visit(other, [...path, room]);
    };
    Object.keys(rooms).forEach((room) => visit(room, []));
  });

  for (const [room, { imports, types = [], ambient, packages }] of Object.entries(rooms) as [string, Room][]) {
    it(`${room} imports only what its row allows`, () => {
      const wrong: string[] = [];
      for (const file of filesOf(`src/${room}`))
        for (const { from, target, typeOnly } of importsOf(file)) {
          if (target !== undefined) {
            const other = roomOf(target) ?? '';
            const may = other === room || imports.includes(other) || (typeOnly && types.includes(other));
            if (!may) wrong.push(`${file} imports ${from} of the room ${other}`);
            if (!from.endsWith('.ts')) wrong.push(`${file} imports ${from} without its ending`);
          } else if (from.startsWith('node:')) {
            if (!ambient.includes('node')) wrong.push(`${file} imports ${from}`);
          } else if (!allowed(packageName(from), packages)) wrong.push(`${file} imports the package ${from}`);
        }
      assert.deepEqual(wrong, []);
    });
  }
});
