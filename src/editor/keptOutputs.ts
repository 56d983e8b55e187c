import { version } from '../result/version.ts';
import type { Output } from '../charts/output.ts';
import type { Texts } from './texts.ts';
import { shownAgain, shownBy, type CodeCells, type Shown } from './shownAgain.ts';

/** What cells showed when they were run, by their content keys: it is shown again where a cell's key is the same. */
export class KeptOutputs {
  readonly #store: Texts;

  /** @param store of this alone */
  constructor(store: Texts) {
    this.#store = store;
  }

  /** Whether there is anything to be shown again. */
  any(): Promise<boolean> {
    return this.#store.any();
  }

  /**
   * What a cell with this key is to show.
   * @param cell its place among the code cells, as they are by now
   */
  async get(key: string, cell: number, cells: CodeCells): Promise<readonly Output[] | undefined> {
    const text = await this.#store.get(nameOf(key));
    if (text === undefined) return undefined;
    try {
      const shown = JSON.parse(text) as unknown;
      if (isShown(shown)) return shownAgain(shown, cell, cells);
    } catch {
      // Cut off, or not ours.
    }
    await this.forget(key);
    return undefined;
  }

  async put(key: string, outputs: readonly Output[], cell: number, cells: CodeCells): Promise<void> {
    if (outputs.length > 0) await this.#store.put(nameOf(key), JSON.stringify(shownBy(outputs, cell, cells)));
  }

  forget(key: string): Promise<void> {
    return this.#store.forget(nameOf(key));
  }
}

/** Another version may show the same otherwise. */
const nameOf = (key: string): string => `${key}-1-${version}`;

function isShown(data: unknown): data is Shown {
  if (typeof data !== 'object' || data === null) return false;
  const { outputs, number, texts } = data as Partial<Record<keyof Shown, unknown>>;
  return (
    Array.isArray(outputs) &&
    outputs.every(isOutput) &&
    typeof number === 'number' &&
    typeof texts === 'object' &&
    !!texts
  );
}

const isOutput = (data: unknown): boolean =>
  typeof data === 'object' &&
  data !== null &&
  'version' in data &&
  data.version === 1 &&
  'parts' in data &&
  Array.isArray(data.parts) &&
  'messages' in data &&
  Array.isArray(data.messages);
