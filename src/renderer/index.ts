import type { ActivationFunction, OutputItem } from 'vscode-notebook-renderer';
import { drawOutput, type DrawnOutput } from './output.ts';
import { addStyle } from './style.ts';
import { currentTheme, watchTheme } from './editorTheme.ts';

/** What the editor calls: draws an output item, forgets one, or forgets all. */
export const activate: ActivationFunction = () => {
  const drawn = new Map<string, DrawnOutput>();
  addStyle();
  watchTheme(() => {
    const theme = currentTheme();
    drawn.forEach((output) => output.retheme(theme));
  });
  const forget = (id: string): void => {
    drawn.get(id)?.dispose();
    drawn.delete(id);
  };
  return {
    async renderOutputItem(item, place, signal) {
      forget(item.id);
      const output = drawOutput(dataOf(item), place, currentTheme());
      drawn.set(item.id, output);
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
