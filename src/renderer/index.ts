import type { ActivationFunction, OutputItem } from 'vscode-notebook-renderer';
import { drawOutput, type DrawnOutput } from './output.ts';
import { addStyle } from './style.ts';
import type { Handled } from './handles/index.ts';
import { currentTheme, watchTheme } from './editorTheme.ts';

/** What the editor calls: draws an output item, forgets one, or forgets all. */
export const activate: ActivationFunction = (context) => {
  const drawn = new Map<string, DrawnOutput>();
  addStyle();
  watchTheme(() => {
    const theme = currentTheme();
    drawn.forEach((output) => output.retheme(theme));
  });
  // Only where there is somebody to write the text, and a chart to be handled.
  let handled: Promise<Handled | undefined> | undefined;
  let ready: Handled | undefined;
  const handle = (item: OutputItem, output: DrawnOutput): void => {
    const id = idOf(item);
    if (
      context.postMessage === undefined ||
      id === undefined ||
      output.charts.every(({ part }) => part.axis === undefined)
    )
      return;
    handled ??= import('./handles/index.ts').then(
      (found) => (ready = new found.Handled(context)),
      () => undefined,
    );
    void handled.then((found) => {
      if (drawn.get(item.id) === output) found?.attach(item.id, id, output);
    });
  };
  const forget = (id: string): void => {
    ready?.forget(id);
    drawn.get(id)?.dispose();
    drawn.delete(id);
  };
  return {
    async renderOutputItem(item, place, signal) {
      forget(item.id);
      const output = drawOutput(dataOf(item), place, currentTheme());
      drawn.set(item.id, output);
      handle(item, output);
      signal.addEventListener('abort', () => {
        if (drawn.get(item.id) === output) forget(item.id);
      });
      await output.ready;
    },
    disposeOutputItem(id) {
      for (const key of id === undefined ? [...drawn.keys()] : [id]) forget(key);
    },
  };
};

function dataOf(item: OutputItem): unknown {
  try {
    return item.json() as unknown;
  } catch {
    return undefined;
  }
}

/** The id that the editor gave the output. */
function idOf({ metadata }: OutputItem): string | undefined {
  const id = (metadata as { readonly washboard?: unknown } | undefined)?.washboard;
  return typeof id === 'string' ? id : undefined;
}
