import type { RendererContext } from 'vscode-notebook-renderer';
import type { LinkAsked, TakingAsked, Told } from '../../charts/handleMessages.ts';
import { tableCsv, tableMarkdown, tableTsv } from '../../charts/tableCopies.ts';
import { reasonOfException } from '../../result/environment.ts';
import type { DrawnChart } from '../chart.ts';
import type { DrawnOutput } from '../output.ts';
import { followLinks } from '../links.ts';
import { hearWords, said } from '../words.ts';
import { nameButtons } from './menu.ts';
import { base64Of, copyPicture, pngOf } from './picture.ts';
import { takeEvent, type Take, type TakeDetail } from './takes.ts';

/** Does what the menus of charts, tables and answers and the links of messages ask, with the editor's help; without it there are none. */
export class Taking {
  readonly #post: (message: TakingAsked | LinkAsked) => void;

  constructor(context: RendererContext<unknown>) {
    this.#post = (message) => context.postMessage?.(message);
    hearWords(context, nameButtons);
    context.onDidReceiveMessage?.((message: Told) => {
      if (message.type === 'rasterise') void this.#rasterise(message);
    });
  }

  /** Lets an output be taken away. @param idOf gives the id that the editor gave what is shown at the moment */
  add(drawn: DrawnOutput, idOf: () => string | undefined): void {
    drawn.root.classList.add('washboard-takable');
    followLinks(drawn.root, this.#post, idOf);
    drawn.root.addEventListener(takeEvent, (event) => {
      event.stopPropagation();
      const detail = (event as CustomEvent<TakeDetail>).detail;
      const index = drawn.charts.findIndex(({ element }) => element.contains(event.target as Node));
      const output = idOf();
      if (output !== undefined) detail.said = this.#take(detail.take, output, index, drawn.charts.at(index));
    });
  }

  #take(take: Take, output: string, index: number, chart: DrawnChart | undefined): TakeDetail['said'] {
    switch (take.what) {
      case 'save picture':
        return this.#ask({ type: 'save picture', output, chart: index });
      case 'copy picture':
        return copied(chart?.picture.querySelector('svg'));
      case 'copy words':
        return this.#copy(chart?.part().description ?? '');
      case 'copy number':
        return this.#ask({ type: 'copy number', output });
      case 'copy sentence':
        return this.#copy(take.text);
      case 'copy table':
        return this.#copy(tableTsv(take.table));
      case 'copy markdown':
        return this.#copy(tableMarkdown(take.table));
      case 'copy csv':
        return this.#copy(tableCsv(take.table));
      case 'save csv':
        return this.#ask({ type: 'save text', name: nameOf(take.table.caption), text: tableCsv(take.table) });
    }
  }

  #ask(message: TakingAsked): undefined {
    this.#post(message);
  }

  #copy(text: string): string {
    this.#post({ type: 'copy text', text });
    return said('Copied');
  }

  async #rasterise({ id, svg, width, height }: Extract<Told, { type: 'rasterise' }>): Promise<void> {
    try {
      this.#post({ type: 'rasterised', id, png: await base64Of(await pngOf(svg, width, height)) });
    } catch (error) {
      this.#post({ type: 'rasterised', id, failed: reasonOfException(error) });
    }
  }
}

async function copied(svg: SVGSVGElement | null | undefined): Promise<string> {
  if (svg === null || svg === undefined) return said('There is no picture');
  try {
    await copyPicture(svg);
    return said('Copied');
  } catch (error) {
    return said('Not copied: {0}', reasonOfException(error));
  }
}

/** A name for a file from a caption. */
const nameOf = (caption: string): string =>
  `${
    caption
      .replace(/[^\p{L}\p{N}_-]+/gu, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 60) || 'table'
  }.csv`;
