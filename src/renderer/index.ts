import type { ActivationFunction, OutputItem } from 'vscode-notebook-renderer';
import { drawOutput, type DrawnOutput } from './output.ts';
import { StaleOutputs } from './stale.ts';
import { addStyle } from './style.ts';
import { menuEntries, menuKey } from './taking/menu.ts';
import { Taking } from './taking/taking.ts';
import type { Handled } from './handles/index.ts';
import { currentTheme, watchTheme } from './editorTheme.ts';
import { said } from './words.ts';

/** What the editor calls: draws an output item, forgets one, or forgets all. */
export const activate: ActivationFunction = (context) => {
  const drawn = new Map<string, DrawnOutput>();
  /** By item the ids that the editor gave the outputs. */
  const ids = new Map<string, string>();
  addStyle();
  watchTheme(() => {
    const theme = currentTheme();
    drawn.forEach((output) => output.retheme(theme));
  });
  // What is out of date is known to the editor alone.
  const stale = new StaleOutputs(context);
  const taking = new Taking(context);
  // Only where there is somebody to write the text, and a chart to be handled.
  let loading = false;
  let handled: Handled | undefined;
  const load = async (): Promise<void> => {
    loading = true;
    const { Handled: Made } = await import('./handles/index.ts');
    handled = new Made(context, { menuEntries, menuKey, said });
    for (const [item, id] of ids) handled.attach(item, id, drawn.get(item)!);
  };
  const handle = (item: string, id: string, output: DrawnOutput): void => {
    ids.set(item, id);
    stale.add(item, id, output.root);
    taking.add(output, () => ids.get(item));
    handled?.attach(item, id, output);
    // Without that file charts are still.
    if (!loading && output.charts.some((chart) => chart.part().axis !== undefined)) load().catch(() => undefined);
  };
  const forget = (id: string): void => {
    handled?.forget(id);
    stale.forget(id);
    drawn.get(id)?.dispose();
    drawn.delete(id);
    ids.delete(id);
  };
  return {
    async renderOutputItem(item, container, signal) {
      const data = dataOf(item);
      const id = context.postMessage === undefined ? undefined : idOf(item);
      // What follows another in its place is shown in the views that stand there, if it fits them.
      if (id !== undefined && (await handled?.update(item.id, id, container, data)) === true) {
        ids.set(item.id, id);
        stale.add(item.id, id, drawn.get(item.id)!.root);
        return;
      }
      forget(item.id);
      const output = drawOutput(data, container, currentTheme());
      drawn.set(item.id, output);
      if (id !== undefined) handle(item.id, id, output);
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
