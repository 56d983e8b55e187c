import type { TablePart } from '../../charts/output.ts';
import { menuButton } from './menu.ts';

/** What a part's menu asks of the output that it stands in; those of charts and texts are known by where they come from. */
export type Take =
  | { readonly what: 'save picture' | 'copy picture' | 'copy words' | 'copy number' }
  | { readonly what: 'copy sentence'; readonly text: string }
  | { readonly what: 'copy table' | 'copy markdown' | 'copy csv' | 'save csv'; readonly table: TablePart };

/** The event in which it is asked, and the element for the answer: what is to be said of it. */
export const takeEvent = 'washboard-take';
export interface TakeDetail {
  readonly take: Take;
  said?: string | undefined | Promise<string | undefined>;
}

/** The menu of a chart. @param title its title at the moment */
export const chartMenu = (title: string): HTMLElement =>
  partMenu(title, [
    ['Save Picture…', { what: 'save picture' }],
    ['Copy Picture', { what: 'copy picture' }],
    ['Copy the Chart in Words', { what: 'copy words' }],
    ['Copy as Prose Number…', { what: 'copy number' }],
  ]);

export const tableMenu = (table: TablePart): HTMLElement =>
  partMenu(table.caption === '' ? 'Table' : table.caption, [
    ['Copy Table', { what: 'copy table', table }],
    ['Copy Table as Markdown', { what: 'copy markdown', table }],
    ['Copy Table as CSV', { what: 'copy csv', table }],
    ['Save Table as CSV…', { what: 'save csv', table }],
    ['Copy as Prose Number…', { what: 'copy number' }],
  ]);

export const sentenceMenu = (text: string): HTMLElement =>
  partMenu('the answer', [
    ['Copy Sentence', { what: 'copy sentence', text }],
    ['Copy as Prose Number…', { what: 'copy number' }],
  ]);

function partMenu(of: string, takes: readonly (readonly [label: string, take: Take])[]): HTMLElement {
  const control: HTMLElement = menuButton(of, () =>
    takes.map(([label, take]) => ({
      label,
      run: () => {
        const detail: TakeDetail = { take };
        control.dispatchEvent(new CustomEvent(takeEvent, { bubbles: true, detail }));
        return detail.said;
      },
    })),
  );
  return control;
}
