import type { TablePart } from '../charts/output.ts';
import { printedUnit } from '../values/number.ts';
import { element } from './element.ts';
import { tableMenu } from './taking/takes.ts';

/** Beyond so many characters a cell may break into lines. */
const longText = 44;
/** Beyond so many rows a table scrolls by itself, below its header. */
const tall = 24;

/** A real table: name, column headers, and the first column as row headers. Wide and tall ones scroll by themselves. */
export function tableElement(part: TablePart): HTMLElement {
  const { caption, rows, folded = false } = part;
  const scroll = element('div', `washboard-scroll${rows.length > tall ? ' washboard-tall' : ''}`, tableOf(part));
  scroll.tabIndex = 0;
  scroll.setAttribute('role', 'region');
  scroll.setAttribute('aria-label', caption === '' ? 'Table' : caption);
  const menu = tableMenu(part);
  if (folded) return element('details', 'washboard-folded', element('summary', '', caption), scroll, menu);
  const name = caption === '' ? [] : [element('figcaption', 'washboard-caption', caption)];
  return element('figure', 'washboard-figure', ...name, scroll, menu);
}

function tableOf({ caption, columns, rows }: TablePart): HTMLTableElement {
  const head = element(
    'tr',
    '',
    ...columns.map(({ name, unit, align }) => {
      const cell = element('th', `washboard-${align}`, name);
      cell.scope = 'col';
      if (unit !== '') cell.append(' ', element('span', 'washboard-unit', `(${printedUnit(unit)})`));
      return cell;
    }),
  );
  const body = rows.map((row) =>
    element(
      'tr',
      '',
      ...row.map((text, index) => {
        const long = text.length > longText ? ' washboard-long' : '';
        const cell = element(index === 0 ? 'th' : 'td', `washboard-${columns[index]?.align ?? 'left'}${long}`, text);
        if (index === 0) cell.setAttribute('scope', 'row');
        return cell;
      }),
    ),
  );
  const table = element('table', 'washboard-table', element('thead', '', head), element('tbody', '', ...body));
  if (caption !== '') table.setAttribute('aria-label', caption);
  return table;
}
