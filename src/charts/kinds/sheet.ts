import { counted } from '../names.ts';
import { columns, type Presenter } from './kind.ts';

/** The run sheet as it was read; what is excluded, and why, stands with it. */
export const presentSheet: Presenter<'sheet'> = ({ file, columns: names, rows }) => {
  const excluded = rows.filter((row) => row.excluded).length;
  return [
    {
      type: 'table',
      caption: `${file}: ${counted(rows.length, 'run')}${excluded === 0 ? '' : `, ${excluded} excluded`}`,
      columns: columns(...names.map((name) => [name, '', 'left'] as const)),
      rows: rows.map(({ facts }) => names.map((name) => facts[name] ?? '')),
    },
  ];
};
