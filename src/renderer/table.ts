import type { TablePart } from '../charts/output.ts';
import { printedUnit } from '../charts/names.ts';
import { element } from './element.ts';

/** Beyond so many characters a cell may break into lines. */
const longText = 44;

/** A real table: caption, column headers, and the first column as row headers. Wide ones scroll by themselves. */
export function tableElement({ caption, columns, rows }: TablePart): HTMLElement {
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
  if (caption !== '') table.prepend(element('caption', '', caption));
  const scroll = element('div', 'washboard-scroll', table);
  scroll.tabIndex = 0;
  scroll.setAttribute('role', 'region');
  scroll.setAttribute('aria-label', caption === '' ? 'Table' : caption);
  return scroll;
}
