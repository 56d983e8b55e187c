import type { TablePart } from '../charts/output.ts';
import { printedUnit } from '../values/number.ts';
import { rowsShown } from '../charts/words/tables.ts';
import { element } from './element.ts';
import { tableMenu } from './taking/takes.ts';

/** Beyond so many characters a cell may break into lines. */
const longText = 44;
/** Beyond so many rows a table scrolls by itself, below its header. */
const tall = 24;
/** Rows that stand there at first, and that the reader can add: thousands would hold up the page, and the wheel over them. */
const atOnce = 200;

/** A real table: name, column headers, and the first column as row headers. Wide and tall ones scroll by themselves. */
export function tableElement(part: TablePart): HTMLElement {
  const { caption, rows, folded = false } = part;
  const { table, more } = tableOf(part);
  const scroll = element('div', `washboard-scroll${rows.length > tall ? ' washboard-tall' : ''}`, table);
  if (rows.length > atOnce) scroll.append(moreButton(rows.length, more));
  scroll.tabIndex = 0;
  scroll.setAttribute('role', 'region');
  scroll.setAttribute('aria-label', caption === '' ? 'Table' : caption);
  const menu = tableMenu(part);
  if (folded) return element('details', 'washboard-folded', element('summary', '', caption), scroll, menu);
  const name = caption === '' ? [] : [element('figcaption', 'washboard-caption', caption)];
  return element('figure', 'washboard-figure', ...name, scroll, menu);
}

/** A button behind the last row that stands there, for the next of them. @param more adds them, and gives how many there are then */
function moreButton(all: number, more: () => number): HTMLButtonElement {
  const button = element('button', 'washboard-button', rowsShown(atOnce, all));
  button.addEventListener('click', () => {
    const shown = more();
    if (shown < all) button.textContent = rowsShown(shown, all);
    else button.remove();
  });
  return button;
}

/** The table with its first rows, and what adds the next of them. */
function tableOf({ caption, columns, rows }: TablePart): {
  readonly table: HTMLTableElement;
  readonly more: () => number;
} {
  const head = element(
    'tr',
    '',
    ...columns.map(({ name, unit, align }) => {
      const cell = element('th', `washboard-${align}`, name);
      cell.scope = 'col';
      // In a table that scrolls each word of a heading would stand on a line of its own.
      cell.style.minWidth = `${Math.ceil(0.6 * name.length)}ch`;
      if (unit !== '') cell.append(' ', element('span', 'washboard-unit', `(${printedUnit(unit)})`));
      return cell;
    }),
  );
  const rowElement = (row: readonly string[]): HTMLElement =>
    element(
      'tr',
      '',
      ...row.map((text, index) => {
        const long = text.length > longText ? ' washboard-long' : '';
        const cell = element(index === 0 ? 'th' : 'td', `washboard-${columns[index]?.align ?? 'left'}${long}`, text);
        if (index === 0) cell.setAttribute('scope', 'row');
        return cell;
      }),
    );
  const body = element('tbody', '');
  const more = (): number => {
    body.append(...rows.slice(body.childElementCount, body.childElementCount + atOnce).map(rowElement));
    return body.childElementCount;
  };
  more();
  const table = element('table', 'washboard-table', element('thead', '', head), body);
  if (rows.length > atOnce) table.setAttribute('aria-rowcount', String(rows.length + 1));
  if (caption !== '') table.setAttribute('aria-label', caption);
  return { table, more };
}
