import { appendFileSync, mkdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { root } from './modules.ts';

/** What became of a mutant. */
export type Verdict = 'noticed' | 'endless' | 'survived';

const path = join(root, 'out', 'mutate', 'verdicts.txt');

/** Verdicts by the keys of their plans, written down one by one, so that a run that was ended goes on where it was. */
export class Verdicts {
  readonly #given = new Map<string, Verdict>();

  constructor() {
    for (const line of linesOf(path)) {
      const [key, verdict] = line.split(' ');
      this.#given.set(key, verdict as Verdict);
    }
  }

  get(key: string): Verdict | undefined {
    return this.#given.get(key);
  }

  give(key: string, verdict: Verdict): void {
    this.#given.set(key, verdict);
    mkdirSync(dirname(path), { recursive: true });
    appendFileSync(path, `${key} ${verdict}\n`);
  }
}

/** The whole lines of a file: one that was being written as the run was ended has no end. */
function linesOf(file: string): string[] {
  try {
    return readFileSync(file, 'utf8').split('\n').slice(0, -1);
  } catch {
    return [];
  }
}
