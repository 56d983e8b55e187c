import { strict as assert } from 'node:assert';
import type { Element } from '../../../src/readers/formats/parquetColumns.ts';
import { flatOf, namedByPlace, Spans } from '../../../src/readers/formats/parquetPlaces.ts';

const leaf = (name: string): Element => ({ name, type: 'DOUBLE' });
const chunk = (...path: string[]): { meta_data: { path_in_schema: string[] } } => ({
  meta_data: { path_in_schema: path },
});

describe('the places of Parquet columns', () => {
  it('are those of the first level, whatever lies in them', () => {
    const names = (...elements: Element[]): string[] => flatOf(elements).map(({ name }) => name);
    assert.deepEqual(names(leaf('t'), { name: 'acc', num_children: 2 }, leaf('x'), leaf('y'), leaf('z')), [
      't',
      'acc',
      'z',
    ]);
    assert.deepEqual(
      names({ name: 'a', num_children: 1 }, { name: 'list', num_children: 1 }, leaf('item'), leaf('z')),
      ['a', 'z'],
    );
  });

  it('name nothing anew where no two have one name', () => {
    const elements = [leaf('t'), leaf('z')];
    const groups = [{ columns: [chunk('t'), chunk('z')] }];
    assert.deepEqual(
      namedByPlace(groups, elements).map(({ element, name }) => [element.name, name]),
      [
        ['t', 't'],
        ['z', 'z'],
      ],
    );
    assert.deepEqual(groups[0].columns[1].meta_data.path_in_schema, ['z']);
  });

  it('tell columns of one name apart, in the schema and in every group', () => {
    const elements = [leaf('z'), { name: 'acc', num_children: 2 }, leaf('z'), leaf('y'), leaf('z')];
    const group = (): { columns: { meta_data: { path_in_schema: string[] } }[] } => ({
      columns: [chunk('z'), chunk('acc', 'z'), chunk('acc', 'y'), chunk('z')],
    });
    const groups = [group(), group()];
    const named = namedByPlace(groups, elements);
    assert.deepEqual(
      named.map(({ element, name }) => [element.name, name]),
      [
        ['z', '0'],
        ['acc', '1'],
        ['z', '4'],
      ],
    );
    assert.deepEqual(
      elements.map(({ name }) => name),
      ['0', '1', 'z', 'y', '4'],
    );
    for (const { columns } of groups)
      assert.deepEqual(
        columns.map(({ meta_data: { path_in_schema: path } }) => path),
        [['0'], ['1', 'z'], ['1', 'y'], ['4']],
      );
  });

  it('are refused where a group has other columns than the schema', () => {
    const elements = (): Element[] => [leaf('z'), leaf('z')];
    assert.throws(() => namedByPlace([{ columns: [chunk('z')] }], elements()));
    assert.throws(() => namedByPlace([{ columns: [chunk('z'), chunk('x')] }], elements()));
    assert.throws(() => namedByPlace([{ columns: [chunk('z'), {}] }], elements()));
  });
});

describe('spans of rows', () => {
  const fill = (rows: number, ...spans: (readonly [number, number])[]): boolean => {
    const taken = new Spans();
    for (const [from, length] of spans) taken.add(from, length);
    return taken.fill(rows);
  };

  it('fill a column where each row is taken once, in any order', () => {
    assert.ok(fill(5, [0, 2], [2, 3]), 'in order');
    assert.ok(fill(5, [2, 3], [0, 2]), 'in another order');
    assert.ok(fill(0), 'of no rows');
    assert.ok(!fill(5, [0, 2], [2, 2]), 'a row is missing at the end');
    assert.ok(!fill(5, [0, 1], [2, 3]), 'a row is missing between');
    assert.ok(!fill(5, [0, 3], [2, 3]), 'a row is there twice');
    assert.ok(!fill(5, [0, 6]), 'there are more rows than stated');
    assert.ok(!fill(5), 'nothing was taken');
  });
});
