import { strict as assert } from 'node:assert';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { rooms, type Room } from '../scripts/rooms.mjs';

const src = fileURLToPath(new URL('../src', import.meta.url));

interface Import {
  readonly file: string;
  readonly from: string;
  /** Whether types alone are taken. */
  readonly types: boolean;
}

function importsOf(file: string): Import[] {
  const text = readFileSync(file, 'utf8');
  const types = new Set([...text.matchAll(/^(?:import|export) type [^;]*? from '([^']+)'/gm)].map((match) => match[1]));
  const source = ts.preProcessFile(text, true, true);
  return source.importedFiles.map(({ fileName }) => ({ file, from: fileName, types: types.has(fileName) }));
}

function filesOf(room: string): string[] {
  return readdirSync(join(src, room), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => join(src, room, name));
}

const roomOf = (path: string): string => relative(src, path).split(sep)[0];

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
    const guide = readFileSync(join(src, '..', 'DEVELOPERS.md'), 'utf8');
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
      for (const { file, from, types: typesAlone } of filesOf(room).flatMap(importsOf)) {
        const where = relative(src, file);
        if (from.startsWith('.')) {
          const target = roomOf(resolve(dirname(file), from));
          const may = imports.includes(target) || (typesAlone && types.includes(target));
          if (target !== room && !may) wrong.push(`${where} imports ${from} of the room ${target}`);
          if (!from.endsWith('.ts')) wrong.push(`${where} imports ${from} without its ending`);
        } else if (from.startsWith('node:')) {
          if (!ambient.includes('node')) wrong.push(`${where} imports ${from}`);
        } else if (!allowed(packageName(from), packages)) wrong.push(`${where} imports the package ${from}`);
      }
      assert.deepEqual(wrong, []);
    });

    it(`${room} has no circle among its files`, () => {
      const graph = new Map<string, string[]>();
      for (const file of filesOf(room)) {
        const text = readFileSync(file, 'utf8');
        const values = [...text.matchAll(/^(?:import|export)\s+(?!type\b)[^;]*?from\s+'(\.[^']+)'/gms)].map(
          (match) => match[1],
        );
        graph.set(
          file,
          values.map((from) => resolve(dirname(file), from)).filter((path) => roomOf(path) === room),
        );
      }
      const done = new Set<string>();
      const visit = (file: string, path: readonly string[]): void => {
        assert.ok(!path.includes(file), `circle: ${[...path, file].map((name) => relative(src, name)).join(' -> ')}`);
        if (done.has(file)) return;
        for (const other of graph.get(file) ?? []) visit(other, [...path, file]);
        done.add(file);
      };
      [...graph.keys()].forEach((file) => visit(file, []));
    });
  }
});
