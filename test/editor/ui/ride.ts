import { strict as assert } from 'node:assert';
import { recording } from '../../engine/memoryFiles.ts';
import { Workbench, type OpenNotebook } from '../harness.ts';

/** A cell of code as the notebook's file has it. */
export const fence = (text: string): string => `\`\`\`washboard\n${text}\n\`\`\`\n\n`;

/** The notebook of a study of a ride. */
export const rideFile = 'ride.washboard.md';

/** The first cell of code of each such study. */
export const rideCell = '# The ride\nride = load "raw/*.csv" | channel z | trim 2..18 s';

/** The text of a study of a ride with these cells of code below its heading. */
export const rideText = (cells: readonly string[]): string => `# A ride\n\n${cells.map(fence).join('')}`;

/** A served editor with a study of two recordings of a ride open in it, each cell of which has run well. */
export async function openRide(
  cells: readonly string[],
  settings: Readonly<Record<string, unknown>> = {},
): Promise<{ readonly workbench: Workbench; readonly notebook: OpenNotebook }> {
  const files = {
    [rideFile]: rideText(cells),
    'raw/a.csv': recording({ seed: 1 }),
    'raw/b.csv': recording({ seed: 2, level: 0.4 }),
  };
  // Hints stand in the text of a cell as the page has it.
  const bare = { 'editor.inlayHints.enabled': 'off', ...settings };
  const workbench = await Workbench.open({ files, theme: 'light', settings: bare });
  try {
    const notebook = await workbench.openNotebook(rideFile);
    await notebook.runAll();
    for (const at of cells.keys()) assert.equal(await notebook.ended(at + 1), 'success');
    return { workbench, notebook };
  } catch (error) {
    await workbench.close();
    throw error;
  }
}
