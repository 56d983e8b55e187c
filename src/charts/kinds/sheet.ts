import { sheetCaption } from '../words/design.ts';
import type { Part } from '../output.ts';
import type { Presenter } from './kind.ts';

/** The run sheet as it was read, without empty columns; remarks stand last, so that what is excluded, and why, is seen. */
export const presentSheet: Presenter<'sheet'> = ({ file, columns, rows }) => {
  const excluded = rows.filter((row) => row.excluded).length;
  const filled = columns.filter((name) => rows.length === 0 || rows.some(({ facts }) => (facts[name] ?? '') !== ''));
  const shown = [...filled.filter((name) => name !== 'note'), ...filled.filter((name) => name === 'note')];
  const figures = (name: string): boolean =>
    rows.every(({ facts }) => /^([-−+]?\d+([.,]\d+)?)?$/.test((facts[name] ?? '').trim()));
  const part: Part = {
    type: 'table',
    caption: sheetCaption(file, rows.length, excluded),
    columns: shown.map((name) => ({ name, unit: '', align: figures(name) ? 'right' : 'left' })),
    rows: rows.map(({ facts }) => shown.map((name) => facts[name] ?? '')),
  };
  return [part];
};
