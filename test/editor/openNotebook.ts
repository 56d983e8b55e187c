import type { FrameLocator, Locator, Page } from 'playwright-core';
import { innerFrame } from './frames.ts';

/** The notebook in the active editor, used as its author does: by mouse and keys. Cells are counted from 0. */
export class OpenNotebook {
  readonly page: Page;
  readonly #overlay: Locator;

  constructor(page: Page) {
    this.page = page;
    this.#overlay = page.locator('.notebookOverlay').locator('visible=true').first();
  }

  /** Waits until the cells stand there and the kernel is chosen. */
  async ready(): Promise<void> {
    await this.#overlay.locator('.monaco-list-row[data-index]').first().waitFor({ state: 'attached' });
    await this.page
      .locator('.kernel-label')
      .filter({ hasText: /^(?!.*Select Kernel)/ })
      .first()
      .waitFor();
  }

  /** How many cells the notebook has. */
  async count(): Promise<number> {
    return Number(await this.#overlay.locator('.monaco-list-row[data-index]').first().getAttribute('aria-setsize'));
  }

  async runAll(): Promise<void> {
    await this.page
      .getByRole('button', { name: /^Run All/ })
      .locator('visible=true')
      .first()
      .click();
  }

  /**
   * Brings a cell into view. Only the cells near the view exist in the page, so the way there is to scroll.
   * @returns the cell's row
   */
  async reveal(index: number): Promise<Locator> {
    const row = this.#overlay.locator(`.monaco-list-row[data-index="${index}"]`);
    const view = (await this.#overlay.locator('.cell-list-container').boundingBox())!;
    await this.page.mouse.move(view.x + view.width / 2, view.y + 40);
    for (let turns = 0; turns < 200; turns++) {
      const cells = await this.#overlay
        .locator('.monaco-list-row[data-index]')
        .evaluateAll((all) =>
          all.map((one) => [Number(one.getAttribute('data-index')), one.getBoundingClientRect().top] as const),
        );
      const top = cells.find(([at]) => at === index)?.[1];
      // The head of the cell goes to the upper part of the view, where nothing lies over it.
      const away = top === undefined ? (index < Math.min(...cells.map(([at]) => at)) ? -1000 : 1000) : top - view.y;
      if (top !== undefined && away >= 0 && away < view.height * 0.6) return this.#leave(row, view);
      if (!(await this.#scroll(away < 0 ? away - 60 : away - view.height * 0.3))) {
        if (top !== undefined && away < view.height) return this.#leave(row, view);
        throw new Error(`cell ${index} is not there; near the view are ${cells.map(([at]) => at).join(', ')}`);
      }
    }
    throw new Error(`cell ${index} does not come to rest in the view`);
  }

  /** Takes the pointer out of the cells, where it would open a chart's tooltip. */
  async #leave(row: Locator, view: { readonly x: number; readonly y: number }): Promise<Locator> {
    await this.page.mouse.move(view.x + 2, view.y - 4);
    return row;
  }

  /** Turns the wheel by about so many pixels; false if the list stands where it stood, at its end. */
  async #scroll(by: number): Promise<boolean> {
    const top = (): Promise<string> =>
      this.page
        .locator(rowsSelector)
        .first()
        .evaluate((rows) => (rows as HTMLElement).style.top);
    const before = await top();
    // The list takes each turn for one notch of 50 pixels.
    const notches = Math.min(30, Math.max(1, Math.round(Math.abs(by) / 50)));
    for (let notch = 0; notch < notches; notch++) await this.page.mouse.wheel(0, Math.sign(by) * 100);
    const moved = ([selector, from]: readonly [string, string]): boolean =>
      document.querySelector<HTMLElement>(selector)?.style.top !== from;
    return this.page.waitForFunction(moved, [rowsSelector, before] as const, { timeout: 1000 }).then(
      () => true,
      () => false,
    );
  }

  /** Runs one cell by its button and waits until it has ended; tells how. */
  async runCell(index: number): Promise<'success' | 'error'> {
    const row = await this.reveal(index);
    const order = await row.locator('.execution-count-label').first().textContent();
    await row.hover();
    await row.locator('.run-button-container .codicon-notebook-execute').click();
    if (order) await row.locator('.execution-count-label').filter({ hasNotText: order }).first().waitFor();
    return this.ended(index);
  }

  /** Waits until a cell that was run has ended; tells how. */
  async ended(index: number): Promise<'success' | 'error'> {
    const row = await this.reveal(index);
    const state = row.locator('.codicon-notebook-state-success, .codicon-notebook-state-error').first();
    await state.waitFor();
    return (await state.getAttribute('class'))?.includes('state-error') ? 'error' : 'success';
  }

  /** Puts a text into a cell in place of what it holds. */
  async editCell(index: number, text: string): Promise<void> {
    const row = await this.reveal(index);
    const isCode = (await row.getAttribute('class'))?.includes('code-cell-row');
    const editor = row.locator('.cell-editor-container .monaco-editor').first();
    if (isCode) await editor.locator('.view-lines').click();
    else {
      // What a prose cell shows is drawn in the outputs' frame, which lies above the row.
      const { x, y } = (await row.boundingBox())!;
      await this.page.mouse.dblclick(x + 200, y + 20);
    }
    await row.locator('.monaco-editor.focused').waitFor();
    // Keys go astray for a moment where an output's frame had the focus; an empty cell has nothing to select.
    for (let tries = 0; tries < 5; tries++) {
      await this.page.keyboard.press('ControlOrMeta+A');
      if ((await row.locator('.selected-text').count()) > 0) break;
      await this.page.waitForTimeout(100);
    }
    await this.page.keyboard.insertText(text);
    await this.page.keyboard.press('Escape');
  }

  /** What the editor of a code cell shows. */
  async textOf(index: number): Promise<string> {
    const row = await this.reveal(index);
    // The page keeps the lines in the order in which they were drawn.
    const lines = await row
      .locator('.cell-editor-container .view-line')
      .evaluateAll((all) =>
        [...all]
          .sort((a, b) => a.getBoundingClientRect().top - b.getBoundingClientRect().top)
          .map((one) => one.textContent ?? ''),
      );
    return lines.join('\n').replaceAll('\u00a0', ' ');
  }

  /** Saves, and waits until the editor says that all is on the disk. */
  async save(): Promise<void> {
    await this.page.keyboard.press('ControlOrMeta+S');
    await this.page.locator('.tab.active:not(.dirty)').waitFor();
  }

  /** The outputs' frame: what the renderer drew. */
  outputs(): FrameLocator {
    return innerFrame(this.page);
  }
}

const rowsSelector = '.notebookOverlay .cell-list-container .monaco-list-rows';
